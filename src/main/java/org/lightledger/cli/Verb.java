package org.lightledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.mail.MailServer;
import org.lightledger.share.OpenLinks;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.studio.PlanChange;
import org.lightledger.surroundings.SkylineWork;
import org.lightledger.surroundings.UnreadableElevationException;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** What all verbs share: the ledger, machine output, help. */
@CommandLine.Command(mixinStandardHelpOptions = true)
abstract class Verb implements Callable<Integer> {
  /** From so many on the work takes seconds, and the owner is told. */
  private static final int NOTED_SKYLINES = 200;

  final Services services;

  @Spec private CommandSpec spec;

  @Option(
      names = "--json",
      description = "Write machine output to standard output, and nothing else there.")
  boolean json;

  Verb(Services services) {
    this.services = services;
  }

  /** The folder that the owner named, or null. */
  @Nullable Path namedFolder() {
    return ((Lightledger) spec.root().userObject()).ledger;
  }

  Path folder() {
    Path named = namedFolder();
    return named == null ? services.defaultLedger() : named;
  }

  /** Opens the ledger, and makes it when there is none. */
  Ledger openOrMake() {
    return services.open(folder());
  }

  /** Opens the ledger that is there. */
  Ledger open() {
    if (!Ledger.existsIn(folder())) {
      throw new IllegalArgumentException(
          "expected a ledger in the folder "
              + folder()
              + ", found none; \"import\" makes one, --ledger names another folder");
    }
    return openOrMake();
  }

  /** The spot of a number. */
  static Spot spot(Ledger ledger, long spotId) {
    return ledger
        .read(session -> session.spots().find(spotId))
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected the number of a spot, found "
                        + spotId
                        + ", which the ledger does not have; \"spots\" lists them"));
  }

  /** The zone of a spot, which every local time takes. */
  static ZoneId zoneOf(Spot spot) {
    ZoneId zone = spot.zone();
    if (zone == null) {
      throw new IllegalArgumentException(
          "the zone of spot " + spot.id() + " is not known; set it on the spot's page");
    }
    return zone;
  }

  /** Reads an option, whose name goes before what is wrong with it. */
  static <T> T named(String option, Supplier<T> reading) {
    try {
      return reading.get();
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException(option + ": " + e.getMessage(), e);
    }
  }

  /** Makes the skylines that are due, so that an answer rests on all that the ledger knows. */
  long makeSkylines(Ledger ledger) {
    SkylineWork work = new SkylineWork(ledger, services.clock());
    long waiting = work.waiting();
    if (waiting == 0) {
      return 0;
    }
    if (waiting > NOTED_SKYLINES) {
      note(String.format(Locale.ROOT, "Working out the skylines of %d spots.", waiting));
    }
    try {
      return work.makeDue(made -> {}, () -> false);
    } catch (UnreadableElevationException e) {
      note(String.valueOf(e.getMessage()));
      return 0;
    }
  }

  /** Says so when whoever reads the ledger's file reads the password of the mail server. */
  void noteKeptPassword(Ledger ledger) {
    if (ledger.read(session -> session.settings().find(MailServer.PASSWORD)).isPresent()) {
      note(
          "The ledger and its backups hold the password of your mail server in readable form. To"
              + " keep it outside, forget it on the page of the settings of messages and set the"
              + " environment variable "
              + MailServer.PASSWORD_VARIABLE
              + ".");
    }
  }

  /** Where results go. */
  PrintWriter out() {
    return spec.commandLine().getOut();
  }

  /** Prints a result in the form that was asked for. */
  void print(Supplier<?> machine, Supplier<String> people) {
    PrintWriter out = out();
    if (json) {
      out.println(Json.text(machine.get()));
    } else {
      out.print(people.get());
    }
    out.flush();
  }

  /** Prints a note for people, which never mixes with machine output. */
  void note(String text) {
    PrintWriter err = spec.commandLine().getErr();
    err.println(text);
    err.flush();
  }

  /** Refuses an address, "" for none, at which no client would find anything. */
  void checkShareAddress(String address) {
    if (!address.isEmpty() && !OpenLinks.isReachable(address)) {
      throw usage(
          "--share-address: expected the address of a web page that others reach, such as"
              + " https://example.org, found "
              + address,
          null);
    }
  }

  /** Says what a change did to a kept plan. */
  void noteChange(PlanChange change) {
    if (change != PlanChange.NONE) {
      note(change.words());
    }
  }

  /** A mistake in the words of the command. */
  ParameterException usage(String message, @Nullable Exception cause) {
    return new ParameterException(spec.commandLine(), message, cause);
  }
}

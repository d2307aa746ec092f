package org.lightledger.cli;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Anchor;
import org.lightledger.session.Bookable;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.Cancellation;
import org.lightledger.studio.Studio;
import org.lightledger.web.SessionDay;
import org.lightledger.web.SessionDoubts;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Days with clients. */
@Command(
    name = "session",
    description = "Days with clients.",
    mixinStandardHelpOptions = true,
    synopsisSubcommandLabel = "add|list|show|candidates|answer|pack|state|delete")
final class SessionVerb implements Runnable {
  @CommandLine.Spec private CommandLine.Model.CommandSpec spec;

  static CommandLine of(Services services) {
    return new CommandLine(new SessionVerb())
        .addSubcommand(new Add(services))
        .addSubcommand(new All(services))
        .addSubcommand(new Show(services))
        .addSubcommand(new SessionCandidatesVerb(services))
        .addSubcommand(new SessionAnswerVerb(services))
        .addSubcommand(new SessionPackVerb(services))
        .addSubcommand(new State(services))
        .addSubcommand(new SessionDeleteVerb(services));
  }

  @Override
  public void run() {
    throw new CommandLine.ParameterException(
        spec.commandLine(),
        "expected one of add, list, show, candidates, answer, pack, state, delete, found none");
  }

  /** The session of a number. */
  static Session session(LedgerSession session, long id) {
    return session
        .sessions()
        .find(id)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected the number of a session, found "
                        + id
                        + ", which the ledger does not have; \"session list\" lists them"));
  }

  /** Prints all about a session. */
  static void show(Verb verb, Ledger ledger, long id) {
    Studio studio = verb.services.studio(ledger);
    ledger.read(
        session -> {
          Session booked = session(session, id);
          Optional<SessionHours> hours = studio.hours(session, booked);
          verb.print(
              () -> SessionOutput.json(session, booked, hours),
              () -> SessionOutput.text(session, booked, hours));
          for (Spot spot : studio.onOtherClocks(session, booked)) {
            verb.note(
                String.format(
                    Locale.ROOT,
                    "Mind: spot %d keeps the clocks of %s, the session those of %s.",
                    spot.id(),
                    spot.zone(),
                    booked.zone()));
          }
          String doubts =
              hours
                  .map(known -> new SessionDoubts(studio).words(session, booked, known))
                  .orElse("");
          if (!doubts.isEmpty()) {
            verb.note("Mind: " + doubts);
          }
          return id;
        });
  }

  /** Books one. */
  @Command(name = "add", description = "Books a session.")
  static final class Add extends Verb {
    @Parameters(paramLabel = "CLIENT", description = "The client's number.")
    private long clientId;

    @Option(
        names = "--on",
        paramLabel = "DATE",
        required = true,
        description = "The day on which it starts.")
    private String on;

    @Option(
        names = "--anchor",
        paramLabel = "CODE",
        defaultValue = "ends-sunset",
        description =
            "ends-sunset, ends-sunset-20 (minutes before), ends-19:30 or starts-16:00;"
                + " ends-sunset if not given.")
    private String anchor;

    @Option(
        names = "--package",
        paramLabel = "NAME",
        description = "What is booked; the first package if not given.")
    private @Nullable String bookable;

    Add(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      LocalDate date = named("--on", () -> date(on));
      Anchor fixed = named("--anchor", () -> Anchor.parse(anchor));
      try (Ledger ledger = open()) {
        Studio studio = services.studio(ledger);
        long id =
            ledger.write(
                session -> {
                  ClientVerb.client(session, clientId);
                  Bookable booked = bookable(session);
                  studio
                      .evening(date)
                      .map(evening -> SessionHours.of(fixed, booked.terms(), evening))
                      .filter(hours -> hours.span() == null)
                      .ifPresent(
                          hours -> {
                            throw new IllegalArgumentException(
                                "--on, --anchor: expected a day and an hour that exist, found "
                                    + hours.why());
                          });
                  return studio.book(session, clientId, date, fixed, booked.terms());
                });
        show(this, ledger, id);
        Session made = ledger.read(session -> session(session, id));
        String past = SessionDay.past(made, services.clock().instant());
        if (!past.isEmpty()) {
          note("Mind: " + past);
        }
      }
      return 0;
    }

    private static LocalDate date(String text) {
      try {
        return LocalDate.parse(text);
      } catch (DateTimeException e) {
        throw new IllegalArgumentException(
            "expected a day such as 2026-12-15, found \"" + text + "\"", e);
      }
    }

    private Bookable bookable(LedgerSession session) {
      List<Bookable> packages = session.sessions().packages();
      return packages.stream()
          .filter(one -> bookable == null || one.terms().name().equals(bookable))
          .findFirst()
          .orElseThrow(
              () ->
                  new IllegalArgumentException(
                      "--package: expected one of "
                          + packages.stream().map(one -> one.terms().name()).toList()
                          + ", found "
                          + bookable));
    }
  }

  /** Lists them. */
  @Command(name = "list", description = "Lists the sessions, the earliest first.")
  static final class All extends Verb {
    All(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        Studio studio = services.studio(ledger);
        ledger.read(
            session -> {
              List<Session> all = new ArrayList<>(session.sessions().all());
              print(
                  () ->
                      all.stream()
                          .map(one -> SessionOutput.json(session, one, studio.hours(session, one)))
                          .toList(),
                  () ->
                      all.stream()
                          .map(one -> SessionOutput.line(session, one))
                          .collect(Collectors.joining()));
              return all.size();
            });
      }
      return 0;
    }
  }

  /** Shows one. */
  @Command(name = "show", description = "Shows a session.")
  static final class Show extends Verb {
    @Parameters(paramLabel = "SESSION", description = "Its number.")
    private long id;

    Show(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        show(this, ledger, id);
      }
      return 0;
    }
  }

  /** Says how far one is. */
  @Command(name = "state", description = "Says how far a session is.")
  static final class State extends Verb {
    @Parameters(index = "0", paramLabel = "SESSION", description = "Its number.")
    private long id;

    @Parameters(
        index = "1",
        paramLabel = "STATE",
        description = "booked, planned, agreed, done or cancelled.")
    private String state;

    @Option(
        names = "--outcome",
        paramLabel = "TEXT",
        description = "How it went with the goal; needed for done when there was one.")
    private @Nullable String outcome;

    State(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      Session.State next = parse(state);
      try (Ledger ledger = open()) {
        Studio studio = services.studio(ledger);
        ledger.change(
            session -> {
              Session booked = session(session, id);
              Session.Brief was = booked.brief();
              if (next == Session.State.DONE) {
                SessionDay.whyNotDone(studio, session, booked, services.clock().instant())
                    .ifPresent(State::refuse);
              }
              String said = outcome == null ? was.outcome() : outcome.strip();
              if (next == Session.State.DONE && !was.goal().isBlank() && said.isBlank()) {
                throw new IllegalArgumentException(
                    "--outcome: expected a word on how it went with the goal, found none");
              }
              session.sessions().setState(id, next);
              session
                  .sessions()
                  .describe(
                      id,
                      new Session.Brief(
                          was.wishes(),
                          was.pictures(),
                          was.talkingPoints(),
                          was.goal(),
                          said,
                          was.notes()));
            });
        show(this, ledger, id);
        String toDo =
            ledger.read(
                session ->
                    Cancellation.toDo(session, session(session, id), services.clock().instant()));
        if (!toDo.isEmpty()) {
          note(toDo);
        }
      }
      return 0;
    }

    private static void refuse(String why) {
      throw new IllegalArgumentException(why);
    }

    private static Session.State parse(String text) {
      for (Session.State state : Session.State.values()) {
        if (SessionOutput.code(state).equals(text)) {
          return state;
        }
      }
      throw new IllegalArgumentException(
          "expected one of " + Session.State.list() + "; found \"" + text + "\"");
    }
  }
}

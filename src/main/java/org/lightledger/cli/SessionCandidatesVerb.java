package org.lightledger.cli;

import java.time.DateTimeException;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightClass;
import org.lightledger.session.Candidate;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.Rescheduling;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "candidates",
    description = {
      "Lists the spots that a session may stop at, or says what some of them are to it.",
      "What is not told of a spot that is a candidate already stays as it is."
    })
final class SessionCandidatesVerb extends Verb {
  @Parameters(index = "0", paramLabel = "SESSION", description = "Its number.")
  private long id;

  @Parameters(
      index = "1..*",
      arity = "0..*",
      paramLabel = "SPOT",
      description = "Spots to add or to change; none to list the candidates.")
  private List<Long> spotIds = new ArrayList<>();

  @Option(names = "--choice", paramLabel = "CHOICE", description = "free, locked or excluded.")
  private @Nullable String choice;

  @Option(names = "--light", paramLabel = "CLASS[,CLASS]", description = "Which light is wanted.")
  private @Nullable String light;

  @Option(names = "--stay", paramLabel = "MINUTES", description = "How long to stay.")
  private @Nullable Integer stay;

  @Option(
      names = "--arrival",
      paramLabel = "HH:MM",
      description = "When to arrive at a locked stop.")
  private @Nullable String arrival;

  @Option(names = "--remove", description = "Takes the spots off.")
  private boolean remove;

  SessionCandidatesVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      Rescheduling rescheduling = new Rescheduling(services.studio(ledger));
      PlanChange became =
          ledger.write(
              session -> {
                SessionVerb.session(session, id);
                for (long spotId : spotIds) {
                  if (remove) {
                    session.candidates().remove(id, spotId);
                  } else {
                    session.candidates().put(id, changed(session, spotId));
                  }
                }
                return spotIds.isEmpty() ? PlanChange.NONE : rescheduling.followPlace(session, id);
              });
      noteChange(became);
      SessionVerb.show(this, ledger, id);
    }
    return 0;
  }

  private Candidate changed(LedgerSession session, long spotId) {
    if (session.spots().find(spotId).isEmpty()) {
      throw new IllegalArgumentException(
          "expected the number of a spot, found "
              + spotId
              + ", which the ledger does not have; \"spots\" lists them");
    }
    Candidate was =
        session.candidates().of(id).stream()
            .filter(candidate -> candidate.spotId() == spotId)
            .findFirst()
            .orElse(new Candidate(spotId, Candidate.Choice.FREE, Set.of(), null, null));
    Candidate.Choice chosen = choice == null ? was.choice() : choice(choice);
    LocalTime kept = chosen == Candidate.Choice.LOCKED ? was.arrival() : null;
    String lights = light;
    String at = arrival;
    return new Candidate(
        spotId,
        chosen,
        lights == null ? was.wanted() : named("--light", () -> lights(lights)),
        stay == null ? was.stayMinutes() : stay,
        at == null ? kept : named("--arrival", () -> time(at)));
  }

  private static Candidate.Choice choice(String text) {
    for (Candidate.Choice choice : Candidate.Choice.values()) {
      if (SessionOutput.code(choice).equals(text)) {
        return choice;
      }
    }
    throw new IllegalArgumentException(
        "--choice: expected one of free, locked, excluded; found \"" + text + "\"");
  }

  private static Set<LightClass> lights(String text) {
    return Arrays.stream(text.split(",")).map(LightClass::parse).collect(Collectors.toSet());
  }

  private static LocalTime time(String text) {
    try {
      return LocalTime.parse(text);
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "expected a time such as 17:30, found \"" + text + "\"", e);
    }
  }
}

package org.lightledger.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Question;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "shortlist", description = "Proposes spots to a client.")
final class ShortlistVerb extends Verb {
  @Parameters(
      arity = "0..*",
      paramLabel = "SPOT",
      description = "With --new: the spots, in the order in which the client sees them.")
  private List<Long> spotIds = new ArrayList<>();

  @Option(
      names = "--new",
      paramLabel = "TITLE",
      description = "Makes a shortlist; without it, all are listed.")
  private @Nullable String title;

  @Option(
      names = "--message",
      paramLabel = "TEXT",
      defaultValue = "",
      description = "Words to the client.")
  private String message;

  @Option(
      names = "--light",
      paramLabel = "CLASS[,CLASS]",
      description = "With --on and --at: the question whose answers say when to be at each spot.")
  private @Nullable String light;

  @Option(names = "--on", paramLabel = "DATE[..DATE]", description = "As for \"ask\".")
  private @Nullable String on;

  @Option(names = "--at", paramLabel = "HH:MM[..HH:MM]", description = "As for \"ask\".")
  private @Nullable String at;

  ShortlistVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open()) {
      if (title == null) {
        List<Shortlist> all = ledger.read(session -> session.shortlists().all());
        print(
            () -> all.stream().map(ShortlistOutput::json).toList(),
            () -> all.stream().map(ShortlistOutput::text).collect(Collectors.joining()));
      } else {
        Shortlist made = make(ledger, title);
        print(() -> ShortlistOutput.json(made), () -> ShortlistOutput.text(made));
      }
    }
    return 0;
  }

  private Shortlist make(Ledger ledger, String name) {
    if (spotIds.isEmpty()) {
      throw new IllegalArgumentException(
          "expected the numbers of the spots to propose, found none; \"spots\" lists them");
    }
    Map<Long, Answer> answers =
        question().map(question -> bestAnswers(ledger, question)).orElse(Map.of());
    return ledger.write(
        session -> {
          long id = session.shortlists().create(name, message);
          for (long spotId : spotIds) {
            Spot spot =
                session
                    .spots()
                    .find(spotId)
                    .orElseThrow(
                        () ->
                            new IllegalArgumentException(
                                "expected the number of a spot, found "
                                    + spotId
                                    + ", which the ledger does not have; \"spots\" lists them"));
            Answer answer = answers.get(spotId);
            List<Observation> observations = session.observations().ofSpot(spot.id());
            session
                .shortlists()
                .add(id, answer == null ? plainEntry(spot, observations) : entry(answer));
          }
          return session.shortlists().find(id).orElseThrow();
        });
  }

  private Optional<Question> question() {
    String lights = light;
    String days = on;
    String time = at;
    if (lights == null && days == null && time == null) {
      return Optional.empty();
    }
    if (lights == null || days == null || time == null) {
      throw new IllegalArgumentException(
          "--light, --on and --at: expected all three or none of them");
    }
    return Optional.of(
        QuestionOptions.question(lights, days, time, () -> null, TermsOptions.none()));
  }

  private Map<Long, Answer> bestAnswers(Ledger ledger, Question question) {
    makeSkylines(ledger);
    return services
        .asker()
        .ask(question, new LedgerStock(ledger), Integer.MAX_VALUE)
        .matches()
        .stream()
        .collect(
            Collectors.toMap(
                answer -> answer.spot().id(), Function.identity(), (best, other) -> best));
  }

  private static Shortlist.Entry entry(Answer answer) {
    Answer.NearestShot nearest = answer.nearestShot();
    return new Shortlist.Entry(
        answer.spot().id(),
        new Shortlist.Moment(
            answer.window().from(), answer.window().to(), answer.light(), answer.facing()),
        nearest == null ? null : nearest.shotId(),
        "");
  }

  private static Shortlist.Entry plainEntry(Spot spot, List<Observation> observations) {
    Optional<Observation> latest =
        observations.stream()
            .max(Comparator.comparing(observation -> observation.at().toInstant()));
    return new Shortlist.Entry(spot.id(), null, latest.map(Observation::shotId).orElse(null), "");
  }
}

package org.lightledger.cli;

import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answers;
import org.lightledger.ask.Question;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
import org.lightledger.studio.DrivenStock;
import org.lightledger.studio.RegionRoads;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(name = "ask", description = "Asks which spots have a light at a date and hour.")
final class AskVerb extends Verb {
  @Mixin private QuestionOptions options;

  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "100",
      description = "At most so many answers of each kind; ${DEFAULT-VALUE} if not given.")
  private int limit;

  @Option(
      names = "--drive",
      paramLabel = "MIN",
      description = "Only spots at most so many minutes by car from the place of --of.")
  private @Nullable Integer driveMinutes;

  AskVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Question question = options.question();
    try (Ledger ledger = open()) {
      makeSkylines(ledger);
      try (RegionRoads roads = new RegionRoads(ledger)) {
        DrivenStock driven = driven(question, ledger, roads);
        Answers answers =
            services
                .asker()
                .ask(question, driven == null ? new LedgerStock(ledger) : driven, limit);
        AskOutput output = new AskOutput(driven == null ? id -> Optional.empty() : driven::drive);
        print(() -> output.json(answers), () -> output.text(answers));
      }
    }
    return 0;
  }

  private @Nullable DrivenStock driven(Question question, Ledger ledger, RegionRoads roads) {
    Integer minutes = driveMinutes;
    if (minutes == null) {
      return null;
    }
    Question.Near near = question.near();
    if (near == null || minutes < 0) {
      throw new IllegalArgumentException(
          near == null
              ? "--drive: expected --of and --within as well, found neither"
              : "--drive: expected 0 minutes or more, found " + minutes);
    }
    return new DrivenStock(
        new LedgerStock(ledger), ledger.read(roads::drives), near.centre(), minutes);
  }
}

package org.lightledger.cli;

import org.lightledger.ask.Answers;
import org.lightledger.ask.Question;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
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

  AskVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Question question = options.question();
    try (Ledger ledger = open()) {
      makeSkylines(ledger);
      Answers answers = services.asker().ask(question, new LedgerStock(ledger), limit);
      print(() -> AskOutput.json(answers), () -> AskOutput.text(answers));
    }
    return 0;
  }
}

package org.lightledger.cli;

import java.util.Arrays;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Answer;
import org.lightledger.session.ClientQuestion;
import org.lightledger.spot.Trait;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(name = "answer", description = "Types in what a client answers to a question.")
final class SessionAnswerVerb extends Verb {
  @Parameters(index = "0", paramLabel = "SESSION", description = "Its number.")
  private long id;

  @Parameters(index = "1", paramLabel = "QUESTION", description = "The question's number.")
  private long questionId;

  @Parameters(index = "2", arity = "0..1", defaultValue = "", paramLabel = "TEXT")
  private String words;

  @Option(
      names = "--places",
      paramLabel = "TRAIT[,TRAIT]",
      description = "The kinds of place that the client likes.")
  private @Nullable String places;

  SessionAnswerVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    String codes = places;
    Set<Trait> liked = codes == null ? Set.of() : named("--places", () -> traits(codes));
    if (words.isBlank() && liked.isEmpty()) {
      throw new IllegalArgumentException("expected an answer in words or --places, found neither");
    }
    try (Ledger ledger = open()) {
      ledger.change(
          session -> {
            SessionVerb.session(session, id);
            session
                .questionnaire()
                .answer(
                    id,
                    new Answer(
                        questionId,
                        question(session).words(),
                        words.strip(),
                        liked,
                        services.clock().instant(),
                        false));
          });
      SessionVerb.show(this, ledger, id);
    }
    return 0;
  }

  private ClientQuestion question(LedgerSession session) {
    return session.questionnaire().questions().stream()
        .filter(question -> question.id() == questionId)
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected the number of a question to clients ("
                        + session.questionnaire().questions().stream()
                            .map(question -> question.id() + ": " + question.words())
                            .collect(Collectors.joining("; "))
                        + "), found "
                        + questionId));
  }

  private static Set<Trait> traits(String codes) {
    return Arrays.stream(codes.split(",")).map(Trait::parse).collect(Collectors.toSet());
  }
}

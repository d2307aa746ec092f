package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Answer;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.Session;
import org.lightledger.share.Said;
import org.lightledger.share.Ticks;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;

/** What the owner writes down of a client's answers. */
final class AnswerRoutes {
  private static final int MOST_ANSWER = 4000;

  private final House house;
  private final SessionPages pages;

  AnswerRoutes(House house, SessionPages pages) {
    this.house = house;
    this.pages = pages;
  }

  void register(RoutesConfig routes) {
    routes.post("/sessions/{id}/answers", this::answer);
  }

  private void answer(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    long id = House.id(ctx, "id");
    Instant now = house.clock().instant();
    boolean clash =
        house
            .ledger()
            .write(session -> keepAnswers(session, SessionPages.find(ctx, session), fields, now));
    if (!fields.problems().isEmpty()) {
      ctx.status(clash ? 409 : 422);
      pages.show(ctx, new Sent("answers", fields));
      return;
    }
    ctx.redirect("/sessions/" + id + "?saved=1#answers", HttpStatus.SEE_OTHER);
  }

  /**
   * Keeps the answers that were changed, unless one of them can not be. An answer that is as it was
   * keeps its time and its author; an emptied one is taken back.
   *
   * @return whether one of them became another meanwhile
   */
  private static boolean keepAnswers(
      LedgerSession session, Session booked, Fields fields, Instant now) {
    Map<Long, Answer> before =
        session.questionnaire().answers(booked.id()).stream()
            .collect(Collectors.toMap(Answer::questionId, Function.identity()));
    List<Answer> changed = new ArrayList<>();
    boolean clash = false;
    for (ClientQuestion question : session.questionnaire().questions()) {
      Answer was = before.get(question.id());
      String kept = was == null ? "" : was.words();
      Set<Trait> had = was == null ? Set.of() : was.places();
      String field = "answer-" + question.id();
      Said said = fields.said(field, question.words(), MOST_ANSWER);
      if (said.clashesWith(kept)) {
        clash = true;
        fields.problem(field, question.words(), clash(was));
      }
      Set<Trait> places = places(fields, question, had);
      String words = said.onto(kept);
      if (!words.equals(kept) || !places.equals(had)) {
        boolean alone = words.isEmpty() && question.kind() == ClientQuestion.Kind.WORDS;
        Set<Trait> asked = alone ? Set.of() : places;
        changed.add(new Answer(question.id(), question.words(), words, asked, now, false));
      }
    }
    if (fields.problems().isEmpty()) {
      changed.forEach(answer -> keep(session, booked.id(), answer));
    }
    return clash;
  }

  private static void keep(LedgerSession session, long id, Answer answer) {
    if (answer.words().isEmpty() && answer.places().isEmpty()) {
      session.questionnaire().removeAnswer(id, answer.questionId());
    } else {
      session.questionnaire().answer(id, answer);
    }
  }

  private static String clash(@Nullable Answer now) {
    return "expected the answer that this page showed, found "
        + (now == null
            ? "that it was taken back meanwhile"
            : "one that "
                + (now.byClient() ? "the client" : "you")
                + " changed meanwhile: "
                + Fields.found(now.words()))
        + "; nothing was changed, save again to put yours in its place";
  }

  /**
   * The kinds of place after the boxes that were changed; a question for words has none to tick.
   */
  private static Set<Trait> places(Fields fields, ClientQuestion question, Set<Trait> had) {
    String field = "places-" + question.id();
    return question.kind() == ClientQuestion.Kind.PLACES
        ? new Ticks<>(
                places(fields, question, Fields.SHOWN + field), places(fields, question, field))
            .onto(had)
        : had;
  }

  private static Set<Trait> places(Fields fields, ClientQuestion question, String field) {
    Set<Trait> places = EnumSet.noneOf(Trait.class);
    for (String code : fields.all(field)) {
      try {
        places.add(Trait.parse(code));
      } catch (IllegalArgumentException e) {
        fields.problem("answer-" + question.id(), question.words(), String.valueOf(e.getMessage()));
      }
    }
    return places;
  }
}

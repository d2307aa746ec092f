package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Instant;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightClass;
import org.lightledger.session.Answer;
import org.lightledger.session.Candidate;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.PackItem;
import org.lightledger.session.Session;
import org.lightledger.share.Said;
import org.lightledger.share.Ticks;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.Rescheduling;
import org.lightledger.studio.Studio;

/** The candidates of a session, the client's answers, and what is packed. */
final class SessionPartRoutes {
  private static final int MOST_ANSWER = 4000;
  private static final int MOST_LINE = 200;
  private static final int LEAST_STAY = 5;
  private static final int MOST_STAY = 480;

  private final House house;
  private final Rescheduling rescheduling;
  private final SessionPages pages;

  SessionPartRoutes(House house, Studio studio, SessionPages pages) {
    this.house = house;
    this.rescheduling = new Rescheduling(studio);
    this.pages = pages;
  }

  void register(RoutesConfig routes) {
    routes.post("/sessions/{id}/candidates", this::add);
    routes.post("/sessions/{id}/candidates/shortlist", this::addShortlist);
    routes.post("/sessions/{id}/candidates/{spot}", this::saveCandidate);
    routes.post("/sessions/{id}/candidates/{spot}/up", ctx -> move(ctx, -1));
    routes.post("/sessions/{id}/candidates/{spot}/down", ctx -> move(ctx, 1));
    routes.post("/sessions/{id}/candidates/{spot}/remove", this::removeCandidate);
    routes.post("/sessions/{id}/answers", this::answer);
    routes.post("/sessions/{id}/items", this::addItem);
    routes.post("/sessions/{id}/items/{item}/tick", this::tick);
    routes.post("/sessions/{id}/items/{item}/remove", this::removeItem);
  }

  /** Changes something of a session that is there. */
  private long change(Context ctx, Consumer<LedgerSession> change) {
    return house
        .ledger()
        .write(
            session -> {
              long id = SessionPages.find(ctx, session).id();
              change.accept(session);
              return id;
            });
  }

  /** Changes the candidates of a session; its clocks follow them. */
  private void changeCandidates(Context ctx, String part, Consumer<LedgerSession> change) {
    long id = House.id(ctx, "id");
    PlanChange became =
        house
            .ledger()
            .write(
                session -> {
                  SessionPages.find(ctx, session);
                  change.accept(session);
                  return rescheduling.followPlace(session, id);
                });
    ctx.redirect(SessionPages.changed(id, became, part), HttpStatus.SEE_OTHER);
  }

  private void add(Context ctx) {
    List<Long> spots = new ArrayList<>();
    for (String number : ctx.formParams("spot")) {
      spots.add(spot(number));
    }
    if (spots.isEmpty()) {
      throw PageProblem.notFound("No spot was chosen.");
    }
    addFree(ctx, session -> spots);
  }

  private static long spot(String number) {
    try {
      return Long.parseLong(number);
    } catch (NumberFormatException e) {
      throw PageProblem.notFound("There is no spot with this number.");
    }
  }

  private void addShortlist(Context ctx) {
    long list = spot(ctx.formParams("list").stream().findFirst().orElse(""));
    addFree(
        ctx,
        session ->
            session
                .shortlists()
                .find(list)
                .orElseThrow(() -> PageProblem.notFound("There is no shortlist with this number."))
                .entries()
                .stream()
                .map(Shortlist.Entry::spotId)
                .distinct()
                .toList());
  }

  /** Spots that are candidates already stay as they are. */
  private void addFree(Context ctx, Function<LedgerSession, List<Long>> spots) {
    long id = House.id(ctx, "id");
    changeCandidates(
        ctx,
        "#candidates",
        session -> {
          Set<Long> present =
              session.candidates().of(id).stream()
                  .map(Candidate::spotId)
                  .collect(Collectors.toSet());
          for (long spotId : spots.apply(session)) {
            if (session.spots().find(spotId).isEmpty()) {
              throw PageProblem.notFound("There is no spot with this number.");
            }
            if (present.add(spotId)) {
              session
                  .candidates()
                  .put(id, new Candidate(spotId, Candidate.Choice.FREE, Set.of(), null, null));
            }
          }
        });
  }

  private void saveCandidate(Context ctx) {
    long spotId = House.id(ctx, "spot");
    Fields fields = new Fields(ctx::formParams);
    Candidate.Choice choice = choice(fields, spotId);
    Set<LightClass> wanted = EnumSet.noneOf(LightClass.class);
    for (String code : fields.all("wanted")) {
      LightClass light = fields.light("wanted-" + spotId, "Light wanted", code);
      if (light != null) {
        wanted.add(light);
      }
    }
    Integer stay =
        fields.whole("stay-" + spotId, "Minutes to stay", LEAST_STAY, MOST_STAY, " minutes");
    LocalTime arrival = fields.clock("arrival-" + spotId, "Arrival");
    if (arrival != null && choice != Candidate.Choice.LOCKED) {
      fields.problem(
          "arrival-" + spotId,
          "Arrival",
          "expected an arrival for a locked stop alone, found one for a stop that is "
              + choice.label());
    }
    if (!fields.problems().isEmpty()) {
      pages.refuse(ctx, new Sent("candidate-" + spotId, fields));
      return;
    }
    changeCandidates(
        ctx,
        "#candidate-" + spotId,
        session -> {
          requireCandidate(ctx, session, spotId);
          session
              .candidates()
              .put(House.id(ctx, "id"), new Candidate(spotId, choice, wanted, stay, arrival));
        });
  }

  private static Candidate.Choice choice(Fields fields, long spotId) {
    for (Candidate.Choice choice : Candidate.Choice.values()) {
      if (choice.name().equals(fields.raw("choice"))) {
        return choice;
      }
    }
    fields.problem(
        "choice-" + spotId,
        "Choice",
        "expected free, locked or left out, found " + Fields.found(fields.raw("choice")));
    return Candidate.Choice.FREE;
  }

  private static List<Long> requireCandidate(Context ctx, LedgerSession session, long spotId) {
    List<Long> spots =
        session.candidates().of(House.id(ctx, "id")).stream().map(Candidate::spotId).toList();
    if (!spots.contains(spotId)) {
      throw PageProblem.notFound("That spot is no longer a candidate of this session.");
    }
    return spots;
  }

  private void move(Context ctx, int by) {
    long spotId = House.id(ctx, "spot");
    long id =
        change(
            ctx,
            session -> {
              List<Long> order = new ArrayList<>(requireCandidate(ctx, session, spotId));
              int from = order.indexOf(spotId);
              int to = Math.min(Math.max(from + by, 0), order.size() - 1);
              Collections.swap(order, from, to);
              session.candidates().reorder(House.id(ctx, "id"), order);
            });
    ctx.redirect("/sessions/" + id + "#candidate-" + spotId, HttpStatus.SEE_OTHER);
  }

  private void removeCandidate(Context ctx) {
    long spotId = House.id(ctx, "spot");
    changeCandidates(
        ctx,
        "#candidates",
        session -> {
          requireCandidate(ctx, session, spotId);
          session.candidates().remove(House.id(ctx, "id"), spotId);
        });
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

  private void addItem(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String words = fields.line("item", "Thing to pack", MOST_LINE);
    if (!fields.problems().isEmpty()) {
      pages.refuse(ctx, new Sent("item", fields));
      return;
    }
    packed(ctx, change(ctx, session -> session.packing().add(House.id(ctx, "id"), words)));
  }

  private void tick(Context ctx) {
    long item = House.id(ctx, "item");
    boolean done = ctx.formParams("done").contains("yes");
    packed(
        ctx,
        change(
            ctx,
            session -> {
              requireItem(ctx, session, item);
              session.packing().tick(House.id(ctx, "id"), item, done, house.clock().instant());
            }));
  }

  private void removeItem(Context ctx) {
    long item = House.id(ctx, "item");
    packed(
        ctx,
        change(
            ctx,
            session -> {
              requireItem(ctx, session, item);
              session.packing().remove(House.id(ctx, "id"), item);
            }));
  }

  private static void requireItem(Context ctx, LedgerSession session, long item) {
    if (session.packing().items(House.id(ctx, "id")).stream()
        .map(PackItem::id)
        .noneMatch(id -> id == item)) {
      throw PageProblem.notFound("That thing is no longer on the list.");
    }
  }

  private void packed(Context ctx, long id) {
    if (Pages.wantsPart(ctx)) {
      PackPart part =
          house.ledger().read(session -> SessionPages.packing(session, id, Sent.NOTHING));
      house.pages().part(ctx, "packpart", part);
    } else {
      ctx.redirect("/sessions/" + id + "#pack", HttpStatus.SEE_OTHER);
    }
  }
}

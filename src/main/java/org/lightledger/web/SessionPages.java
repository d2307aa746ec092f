package org.lightledger.web;

import io.javalin.http.Context;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Answer;
import org.lightledger.session.Client;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.Due;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.MessageKind;
import org.lightledger.session.PackItem;
import org.lightledger.session.SentMessage;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.share.Said;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.CalendarKeeping;
import org.lightledger.studio.Cancellation;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.Studio;
import org.lightledger.sun.SunEphemeris;

/** Puts together the page of a session. */
final class SessionPages {
  private final House house;
  private final Studio studio;
  private final SessionFacts facts;
  private final CandidateViews candidates;
  private final PlanViews plans;

  SessionPages(House house, Studio studio, SunEphemeris sun, CalendarKeeping calendar) {
    this.house = house;
    this.studio = studio;
    this.facts = new SessionFacts(studio, calendar);
    this.candidates = new CandidateViews(studio);
    this.plans = new PlanViews(sun);
  }

  /** Shows the page again with what was typed and what is wrong with it. */
  void refuse(Context ctx, Sent sent) {
    ctx.status(422);
    show(ctx, sent);
  }

  void show(Context ctx, Sent sent) {
    List<Due> due = studio.due();
    SessionPage page = house.ledger().read(session -> page(ctx, session, sent, due));
    house.show(ctx, "session", page.title(), Frame.Room.SESSIONS, page);
  }

  /** Changes something of a session that is there, and tells its number. */
  long change(Context ctx, Consumer<LedgerSession> change) {
    return change(ctx, (session, booked) -> change.accept(session));
  }

  /** Changes something of a session as it is now, and tells its number. */
  long change(Context ctx, BiConsumer<LedgerSession, Session> change) {
    return house
        .ledger()
        .write(
            session -> {
              Session booked = find(ctx, session);
              change.accept(session, booked);
              return booked.id();
            });
  }

  /** The address of a session's page after its candidates have changed. */
  static String changed(long id, PlanChange change, String part) {
    String became = change == PlanChange.NONE ? "" : "?plan=" + change.code();
    return "/sessions/" + id + became + part;
  }

  /** The address of a session's page that says what its change did to the plan. */
  static String saved(long id, PlanChange change, String part) {
    String became = change == PlanChange.NONE ? "" : "&plan=" + change.code();
    return "/sessions/" + id + "?saved=1" + became + part;
  }

  /** What an address adds so that the page says of a day that is over that it is. */
  String past(Session booked, String sign) {
    return SessionDay.past(booked, house.clock().instant()).isEmpty() ? "" : sign + "past=1";
  }

  static Session find(Context ctx, LedgerSession session) {
    return session
        .sessions()
        .find(House.id(ctx, "id"))
        .orElseThrow(() -> PageProblem.notFound("There is no session with this number."));
  }

  static Client client(LedgerSession session, long id) {
    return session
        .clients()
        .find(id)
        .orElseThrow(() -> PageProblem.notFound("There is no client with this number."));
  }

  private SessionPage page(Context ctx, LedgerSession session, Sent sent, List<Due> due) {
    Session booked = find(ctx, session);
    Client client = client(session, booked.clientId());
    Optional<SessionHours> hours = studio.hours(session, booked);
    List<Answer> answers = session.questionnaire().answers(booked.id());
    Set<Trait> liked =
        answers.stream().flatMap(answer -> answer.places().stream()).collect(Collectors.toSet());
    Optional<KeptPlan> plan = session.plans().find(booked.id());
    return new SessionPage(
        booked.id(),
        SessionWords.title(client, booked),
        "/clients/" + client.id(),
        client.name(),
        facts.of(session, booked, client, hours),
        state(booked, sent),
        brief(booked.brief(), sent),
        candidates.view(ctx, session, booked, hours.orElse(null), liked, sent),
        plan.map(kept -> plans.part(session, booked, kept)).orElse(null),
        sentBefore(session, booked, plan),
        studio.isOver(session, booked)
            ? ""
            : Cancellation.toDo(session, booked, house.clock().instant()),
        plan.map(kept -> PlanViews.scouting(session, kept, house.clock().instant())).orElse(null),
        answered(session.questionnaire().questions(), answers, booked.zone(), sent),
        packing(session, booked.id(), sent),
        booked.state() == Session.State.DONE
            ? AfterViews.part(session, booked, plan.orElse(null))
            : null,
        due.stream()
            .filter(one -> one.session().id() == booked.id())
            .map(SessionPages::task)
            .toList(),
        new SessionPage.Deletion(session.sessionRecords().held(booked.id()), sent.is("delete")),
        sent.problems(),
        ctx.queryParam("saved") != null,
        became(ctx.queryParam("plan")),
        ctx.queryParam("past") == null ? "" : SessionDay.past(booked, house.clock().instant()));
  }

  /** Why a session can not be said to be done yet, if so. */
  Optional<String> whyNotDone(Session booked) {
    return house
        .ledger()
        .read(session -> SessionDay.whyNotDone(studio, session, booked, house.clock().instant()));
  }

  private static String became(@Nullable String code) {
    for (PlanChange change : PlanChange.values()) {
      if (change.code().equals(code)) {
        return change.words();
      }
    }
    return "";
  }

  /** That the client was sent another plan than the one that is kept now, "" when not. */
  private static String sentBefore(LedgerSession session, Session booked, Optional<KeptPlan> plan) {
    Instant last =
        session.messages().ofSession(booked.id()).stream()
            .filter(message -> message.kind() == MessageKind.PLAN)
            .map(SentMessage::at)
            .max(Comparator.naturalOrder())
            .orElse(null);
    boolean stands = plan.isPresent() && last != null && !plan.get().madeAt().isAfter(last);
    if (last == null
        || stands
        || !booked.state().isOpen()
        || booked.state() == Session.State.AGREED) {
      return "";
    }
    String went =
        "The plan that went out on " + Words.moment(last.atZone(booked.zone()).toOffsetDateTime());
    return plan.isPresent()
        ? went + " is older than this one: send this one, and agree it again."
        : went + " no longer holds: plan the session, send the new plan, and agree it again.";
  }

  static TodayPage.Task task(Due due) {
    return new TodayPage.Task(
        SessionWords.href(due),
        SessionWords.due(due),
        SessionWords.since(due),
        due.overdueDays() > 0);
  }

  private static SessionPage.State state(Session booked, Sent sent) {
    String chosen = sent.text("state", "state", booked.state().name());
    List<AskPage.Choice> next = new ArrayList<>();
    for (Session.State state : Session.State.values()) {
      next.add(new AskPage.Choice(state.name(), state.label(), state.name().equals(chosen)));
    }
    return new SessionPage.State(
        booked.state().label(),
        booked.state().name(),
        next,
        booked.brief().goal(),
        sent.text("state", "outcome", booked.brief().outcome()));
  }

  private static SessionPage.Brief brief(Session.Brief kept, Sent sent) {
    return new SessionPage.Brief(
        sent.text("brief", "wishes", kept.wishes()),
        sent.text("brief", "pictures", kept.pictures()),
        sent.text("brief", "talking", kept.talkingPoints()),
        sent.text("brief", "goal", kept.goal()),
        sent.text("brief", "notes", kept.notes()));
  }

  /** Every question with its answer, then answers to questions that are no more. */
  private static List<SessionPage.Answered> answered(
      List<ClientQuestion> questions, List<Answer> answers, ZoneId zone, Sent sent) {
    Map<Long, Answer> byQuestion =
        answers.stream().collect(Collectors.toMap(Answer::questionId, Function.identity()));
    List<SessionPage.Answered> rows = new ArrayList<>();
    for (ClientQuestion question : questions) {
      Answer answer = byQuestion.remove(question.id());
      rows.add(
          answered(
              question.id(),
              question.words(),
              answer,
              question.kind() == ClientQuestion.Kind.PLACES,
              zone,
              sent));
    }
    for (Answer answer : answers) {
      if (byQuestion.containsKey(answer.questionId())) {
        rows.add(
            answered(
                answer.questionId(),
                answer.asked(),
                answer,
                !answer.places().isEmpty(),
                zone,
                sent));
      }
    }
    return rows;
  }

  private static SessionPage.Answered answered(
      long id, String words, @Nullable Answer answer, boolean places, ZoneId zone, Sent sent) {
    String kept = answer == null ? "" : answer.words();
    Said typed = sent.said("answers", "answer-" + id);
    Set<String> had = answer == null ? Set.of() : codes(answer.places());
    Set<String> ticked = sent.ticks("answers", "places-" + id).onto(had);
    List<TickBox> boxes = new ArrayList<>();
    if (places) {
      for (Trait trait : Trait.values()) {
        String code = trait.code();
        boxes.add(new TickBox(code, trait.label(), ticked.contains(code), had.contains(code)));
      }
    }
    return new SessionPage.Answered(
        id,
        words,
        typed.isChanged() ? typed.words() : kept,
        Said.fingerprint(kept),
        typed.clashesWith(kept) ? kept : null,
        boxes,
        answer == null ? "" : by(answer, zone));
  }

  private static Set<String> codes(Set<Trait> places) {
    return places.stream().map(Trait::code).collect(Collectors.toSet());
  }

  private static String by(Answer answer, ZoneId zone) {
    return (answer.byClient() ? "by the client, " : "typed in by you, ")
        + Words.moment(answer.at().atZone(zone).toOffsetDateTime());
  }

  static PackPart packing(LedgerSession session, long sessionId, Sent sent) {
    List<PackItem> items = session.packing().items(sessionId);
    long done = items.stream().filter(item -> item.doneAt() != null).count();
    return new PackPart(
        sessionId,
        items.stream()
            .map(item -> new PackPart.Item(item.id(), item.words(), item.doneAt() != null))
            .toList(),
        sent.text("item", "item", ""),
        items.isEmpty() ? "Nothing to pack yet." : done + " of " + items.size() + " packed");
  }
}

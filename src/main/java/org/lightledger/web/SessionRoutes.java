package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Bookable;
import org.lightledger.session.Client;
import org.lightledger.session.Due;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.Rescheduling;
import org.lightledger.studio.Studio;

/** What is due, the sessions, and each one's day. */
final class SessionRoutes {
  private static final int MOST_NEXT = 3;

  private final House house;
  private final Studio studio;
  private final Rescheduling rescheduling;
  private final SessionPages pages;

  SessionRoutes(House house, Studio studio, SessionPages pages) {
    this.house = house;
    this.studio = studio;
    this.rescheduling = new Rescheduling(studio);
    this.pages = pages;
  }

  void register(RoutesConfig routes) {
    routes.get("/today", this::today);
    routes.get("/sessions", this::list);
    routes.get("/sessions/new", ctx -> form(ctx, null, null));
    routes.post("/sessions", this::create);
    routes.get("/sessions/{id}", ctx -> pages.show(ctx, Sent.NOTHING));
    routes.post("/sessions/{id}", this::reschedule);
    routes.get("/sessions/{id}/edit", ctx -> form(ctx, find(ctx), null));
  }

  private Session find(Context ctx) {
    return house.ledger().read(session -> SessionPages.find(ctx, session));
  }

  private void today(Context ctx) {
    List<Due> due = studio.due();
    LocalDate today = studio.today();
    TodayPage page =
        house
            .ledger()
            .read(
                session -> {
                  List<TodayPage.Session> rows = new ArrayList<>();
                  List<Session> all = session.sessions().all();
                  for (Session booked : all) {
                    List<TodayPage.Task> tasks =
                        due.stream()
                            .filter(one -> one.session().id() == booked.id())
                            .map(SessionPages::task)
                            .toList();
                    if (!tasks.isEmpty()) {
                      rows.add(due(session, booked, today, tasks));
                    }
                  }
                  List<SessionsPage.Row> next =
                      all.stream()
                          .filter(one -> one.state().isOpen() && !studio.isOver(session, one))
                          .limit(MOST_NEXT)
                          .map(one -> row(session, one, studio.span(session, one)))
                          .toList();
                  return new TodayPage(Words.day(today), rows, next);
                });
    house.show(ctx, "today", "Today", Frame.Room.TODAY, page);
  }

  private TodayPage.Session due(
      LedgerSession session, Session booked, LocalDate today, List<TodayPage.Task> tasks) {
    long until = today.until(booked.date(), ChronoUnit.DAYS);
    long days = until < 0 && !studio.isOver(session, booked) ? 0 : until;
    String away =
        days == 0
            ? "today"
            : days > 0
                ? "in " + Words.count((int) days, "day", "days")
                : Words.count((int) -days, "day", "days") + " ago";
    String hours = hours(booked, studio.span(session, booked), "");
    return new TodayPage.Session(
        "/sessions/" + booked.id(),
        SessionWords.title(SessionPages.client(session, booked.clientId()), booked),
        hours.isEmpty() ? away : away + ", " + hours,
        tasks);
  }

  private void list(Context ctx) {
    SessionsPage page =
        house
            .ledger()
            .read(
                session -> {
                  List<SessionsPage.Row> coming = new ArrayList<>();
                  List<SessionsPage.Row> past = new ArrayList<>();
                  for (Session booked : session.sessions().all()) {
                    boolean ahead = booked.state().isOpen() && !studio.isOver(session, booked);
                    (ahead ? coming : past).add(row(session, booked, studio.span(session, booked)));
                  }
                  Collections.reverse(past);
                  return new SessionsPage(coming, past, !session.clients().all().isEmpty());
                });
    house.show(ctx, "sessions", "Sessions", Frame.Room.SESSIONS, page);
  }

  static SessionsPage.Row row(
      LedgerSession session, Session booked, Optional<SessionHours.Span> span) {
    Client client = SessionPages.client(session, booked.clientId());
    int spots = session.candidates().of(booked.id()).size();
    return new SessionsPage.Row(
        "/sessions/" + booked.id(),
        SessionWords.title(client, booked),
        Words.capital(hours(booked, span, ", ") + SessionWords.anchor(booked.anchor()))
            + ", "
            + booked.terms().name()
            + ", "
            + (spots == 0 ? "no spots chosen" : Words.count(spots, "spot", "spots")),
        booked.state().label());
  }

  /** From when to when, by which two sessions of a day are told apart; "" when not known. */
  private static String hours(Session booked, Optional<SessionHours.Span> span, String after) {
    return span.map(known -> SessionWords.span(known, booked.zone()) + after).orElse("");
  }

  private void form(Context ctx, @Nullable Session booked, @Nullable Fields sent) {
    Fields query = new Fields(ctx::queryParams);
    SessionFormPage page =
        house
            .ledger()
            .read(
                session -> {
                  List<Bookable> packages = session.sessions().packages();
                  SessionForm form =
                      sent != null
                          ? SessionForm.read(sent)
                          : booked == null || !query.raw("date").isEmpty()
                              ? SessionForm.fresh(query, booked == null ? packages : List.of())
                              : SessionForm.of(booked);
                  return page(session, booked, form, packages, sent);
                });
    house.show(ctx, "sessionform", page.title(), Frame.Room.SESSIONS, page);
  }

  private SessionFormPage page(
      LedgerSession session,
      @Nullable Session booked,
      SessionForm form,
      List<Bookable> packages,
      @Nullable Fields sent) {
    List<AskPage.ListChoice> clients =
        session.clients().all().stream()
            .map(client -> choice(client.id(), client.name(), form.client()))
            .toList();
    List<AskPage.ListChoice> terms = new ArrayList<>();
    if (booked != null) {
      terms.add(
          new AskPage.ListChoice(
              "", "as booked: " + SessionWords.terms(booked.terms()), form.bookable().isEmpty()));
    }
    packages.forEach(
        bookable ->
            terms.add(
                choice(bookable.id(), SessionWords.terms(bookable.terms()), form.bookable())));
    LocalDate day = form.day();
    return new SessionFormPage(
        booked == null ? 0 : booked.id(),
        booked == null ? "New session" : "Day and package",
        form,
        clients,
        terms,
        day == null ? "" : sunset(day),
        sent == null ? List.of() : sent.problems());
  }

  private static AskPage.ListChoice choice(long id, String title, String picked) {
    return new AskPage.ListChoice(String.valueOf(id), title, picked.equals(String.valueOf(id)));
  }

  private String sunset(LocalDate day) {
    return Words.day(day)
        + ": "
        + studio
            .evening(day)
            .map(SessionWords::evening)
            .orElse("the ledger has no spots yet to tell the sun for");
  }

  private void create(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    SessionForm.Booking booking =
        SessionForm.booking(
            fields, house.ledger().read(session -> session.sessions().packages()), null);
    if (booking == null) {
      ctx.status(422);
      form(ctx, null, fields);
      return;
    }
    checkHours(booking, fields);
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
      form(ctx, null, fields);
      return;
    }
    long id =
        house
            .ledger()
            .write(
                session -> {
                  SessionPages.client(session, booking.client());
                  return studio.book(
                      session, booking.client(), booking.date(), booking.anchor(), booking.terms());
                });
    Session made = house.ledger().read(session -> session.sessions().find(id)).orElseThrow();
    ctx.redirect("/sessions/" + id + pages.past(made, "?"), HttpStatus.SEE_OTHER);
  }

  /** A session without hours can not be planned. */
  private void checkHours(SessionForm.Booking booking, Fields fields) {
    Optional<SessionHours> hours =
        studio
            .evening(booking.date())
            .map(evening -> SessionHours.of(booking.anchor(), booking.terms(), evening));
    if (hours.isPresent() && hours.get().span() == null) {
      fields.problem(
          "date", "Day", "expected a day and an hour that exist, found " + hours.get().why());
    }
  }

  private void reschedule(Context ctx) {
    Session booked = find(ctx);
    Fields fields = new Fields(ctx::formParams);
    SessionForm.Booking booking =
        SessionForm.booking(
            fields, house.ledger().read(session -> session.sessions().packages()), booked.terms());
    if (booking != null) {
      checkHours(booking, fields);
    }
    if (booking == null || !fields.problems().isEmpty()) {
      ctx.status(422);
      form(ctx, booked, fields);
      return;
    }
    Optional<PlanChange> change =
        house
            .ledger()
            .write(
                session -> {
                  SessionPages.client(session, booking.client());
                  session
                      .sessionRecords()
                      .whyNotFor(booked.id(), booking.client())
                      .ifPresent(why -> fields.problem("client", "Client", why));
                  return fields.problems().isEmpty()
                      ? Optional.of(rescheduling.reschedule(session, moved(booked, booking)))
                      : Optional.empty();
                });
    if (change.isEmpty()) {
      ctx.status(422);
      form(ctx, booked, fields);
      return;
    }
    String past = pages.past(moved(booked, booking), "&");
    ctx.redirect(SessionPages.saved(booked.id(), change.get(), past), HttpStatus.SEE_OTHER);
  }

  private static Session moved(Session booked, SessionForm.Booking booking) {
    return new Session(
        booked.id(),
        booked.uid(),
        booked.revision(),
        booking.client(),
        booking.date(),
        booked.zone(),
        booking.anchor(),
        booking.terms(),
        booked.state(),
        booked.brief());
  }
}

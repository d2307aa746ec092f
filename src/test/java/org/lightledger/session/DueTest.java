package org.lightledger.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DueTest {
  private static final LocalDate DATE = LocalDate.of(2026, 6, 30);

  private static Session session(long id, LocalDate date, String zone, Session.State state) {
    return new Session(
        id,
        "uid-" + id,
        0,
        1,
        date,
        ZoneId.of(zone),
        new Anchor.EndsAtSunset(0),
        Terms.USUAL,
        state,
        Session.Brief.EMPTY);
  }

  /** A session for which nothing has been done yet. */
  private static Due.Progress bare(Session session) {
    return new Due.Progress(session, Set.of(), 0, 5, 0, false, 0, 7, null);
  }

  private static List<Due> due(String now, Due.Progress... sessions) {
    return Due.of(Instant.parse(now), List.of(sessions), LeadDays.USUAL);
  }

  private static List<Due.Task> tasks(String now, Due.Progress progress) {
    return due(now, progress).stream().map(Due::task).toList();
  }

  /** Noon in Madrid; the last day on which nothing, and the first on which something is due. */
  @ParameterizedTest
  @CsvSource({
    "2026-06-08, ''",
    "2026-06-09, SEND_QUESTIONS",
    "2026-06-22, SEND_QUESTIONS",
    "2026-06-23, SEND_QUESTIONS CHOOSE_CANDIDATES",
    "2026-06-26, SEND_QUESTIONS CHOOSE_CANDIDATES",
    "2026-06-27, SEND_QUESTIONS CHOOSE_CANDIDATES SEND_REMINDER",
    "2026-06-29, SEND_QUESTIONS CHOOSE_CANDIDATES SEND_REMINDER PACK",
    "2026-06-30, SEND_QUESTIONS CHOOSE_CANDIDATES SEND_REMINDER PACK PHOTOGRAPH",
    "2026-07-01, SAY_HOW_IT_WENT",
    "2027-07-01, SAY_HOW_IT_WENT",
  })
  void eachThingIsDueOnItsDay(String day, String expected) {
    Due.Progress progress = bare(session(1, DATE, "Europe/Madrid", Session.State.BOOKED));
    assertThat(String.join(" ", names(tasks(day + "T10:00:00Z", progress)))).isEqualTo(expected);
  }

  private static List<String> names(List<Due.Task> tasks) {
    return tasks.stream().map(Due.Task::name).toList();
  }

  /** 2026-06-09 begins on the session's own calendar, wherever that is. */
  @ParameterizedTest
  @CsvSource({
    "Pacific/Kiritimati, 2026-06-08T10:00:00Z",
    "Asia/Kathmandu, 2026-06-08T18:15:00Z",
    "Europe/Madrid, 2026-06-08T22:00:00Z",
    "UTC, 2026-06-09T00:00:00Z",
    "America/New_York, 2026-06-09T04:00:00Z",
    "Pacific/Niue, 2026-06-09T11:00:00Z",
  })
  void aDayBeginsWhereTheSessionIs(String zone, String midnight) {
    Due.Progress progress = bare(session(1, DATE, zone, Session.State.BOOKED));
    Instant begins = Instant.parse(midnight);
    assertThat(tasks(begins.minusSeconds(1).toString(), progress)).isEmpty();
    List<Due> first = due(midnight, progress);
    assertThat(first)
        .singleElement()
        .returns(LocalDate.of(2026, 6, 9), Due::on)
        .returns(0, Due::overdueDays);
    assertThat(due(begins.plusSeconds(3 * 86_400).toString(), progress))
        .singleElement()
        .returns(3, Due::overdueDays);
  }

  @Test
  void answersAreWaitedForHalfOfTheTimeToThePlan() {
    Session session = session(1, DATE, "Europe/Madrid", Session.State.BOOKED);
    Due.Progress asked =
        new Due.Progress(session, Set.of(MessageKind.QUESTIONS), 0, 5, 2, false, 0, 0, null);
    assertThat(due("2026-06-15T10:00:00Z", asked)).isEmpty();
    assertThat(due("2026-06-16T10:00:00Z", asked))
        .singleElement()
        .returns(Due.Task.ASK_FOR_ANSWERS, Due::task)
        .returns(5, Due::count);
    Due.Progress typedIn = new Due.Progress(session, Set.of(), 3, 2, 2, false, 0, 0, null);
    assertThat(due("2026-06-16T10:00:00Z", typedIn)).singleElement().returns(2, Due::count);
    Due.Progress all = new Due.Progress(session, Set.of(), 5, 0, 2, false, 0, 0, null);
    assertThat(due("2026-06-16T10:00:00Z", all)).isEmpty();
  }

  @Test
  void thePlanIsMadeThenAgreed() {
    Session booked = session(1, DATE, "Europe/Madrid", Session.State.BOOKED);
    Session agreed = session(1, DATE, "Europe/Madrid", Session.State.AGREED);
    String day = "2026-06-24T10:00:00Z";
    assertThat(tasks(day, new Due.Progress(booked, Set.of(), 5, 0, 3, false, 0, 0, null)))
        .containsExactly(Due.Task.MAKE_PLAN);
    assertThat(tasks(day, new Due.Progress(booked, Set.of(), 5, 0, 3, true, 2, 0, null)))
        .containsExactly(Due.Task.AGREE_PLAN, Due.Task.REHEARSE);
    assertThat(tasks(day, new Due.Progress(agreed, Set.of(), 5, 0, 3, true, 0, 0, null))).isEmpty();
    Due.Progress reminded =
        new Due.Progress(agreed, Set.of(MessageKind.REMINDER), 5, 0, 3, true, 0, 1, null);
    assertThat(tasks("2026-06-28T10:00:00Z", reminded)).isEmpty();
    assertThat(tasks("2026-06-29T10:00:00Z", reminded)).containsExactly(Due.Task.PACK);
  }

  /** From 22:00 to 00:30: its day lasts until then, and not a moment longer. */
  @Test
  void aSessionIsOverWhenItEndsAlsoAfterMidnight() {
    Session session = session(1, DATE, "Europe/Madrid", Session.State.AGREED);
    Instant over = Instant.parse("2026-06-30T22:30:00Z");
    Due.Progress late =
        new Due.Progress(session, Set.of(MessageKind.REMINDER), 5, 0, 3, true, 0, 0, over);
    assertThat(due("2026-06-30T22:29:59Z", late))
        .singleElement()
        .returns(Due.Task.PHOTOGRAPH, Due::task)
        .returns(0, Due::overdueDays);
    assertThat(due("2026-06-30T22:30:00Z", late))
        .singleElement()
        .returns(Due.Task.SAY_HOW_IT_WENT, Due::task)
        .returns(LocalDate.of(2026, 7, 1), Due::on)
        .returns(0, Due::overdueDays);
  }

  @Test
  void doneAndCancelledSessionsNeedNothing() {
    for (Session.State state : List.of(Session.State.DONE, Session.State.CANCELLED)) {
      assertThat(due("2026-06-30T10:00:00Z", bare(session(1, DATE, "Europe/Madrid", state))))
          .isEmpty();
    }
  }

  @Test
  void theSoonestSessionComesFirst() {
    List<Due> due =
        due(
            "2026-06-28T10:00:00Z",
            bare(session(3, DATE, "Europe/Madrid", Session.State.BOOKED)),
            bare(session(2, DATE.minusDays(1), "Europe/Madrid", Session.State.BOOKED)),
            bare(session(1, DATE, "Europe/Madrid", Session.State.BOOKED)));
    assertThat(due.stream().map(one -> one.session().id()).distinct()).containsExactly(2L, 1L, 3L);
  }

  @Test
  void theOwnersDaysAreReadAndWhatIsNoNumberIsAsUsual() {
    Map<String, String> settings =
        Map.of("due.questions-days", "30", "due.plan-days", "soon", "due.rehearsal-days", "999");
    LeadDays leads = LeadDays.read(name -> Optional.ofNullable(settings.get(name)));
    assertThat(leads.days(MessageKind.QUESTIONS)).isEqualTo(30);
    assertThat(leads.days(MessageKind.PLAN)).isEqualTo(7);
    assertThat(leads.rehearsal()).isEqualTo(10);
    assertThat(LeadDays.read(name -> Optional.ofNullable(leads.settings().get(name))))
        .isEqualTo(leads);
    assertThatThrownBy(() -> new LeadDays(leads.before(), 366))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected days before a session from 0 to 365, found 366");
    assertThatThrownBy(() -> new LeadDays(Map.of(), 1))
        .isInstanceOf(IllegalArgumentException.class);
  }
}

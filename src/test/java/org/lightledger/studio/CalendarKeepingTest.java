package org.lightledger.studio;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.temporal.Temporal;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Component;
import net.fortuna.ical4j.model.component.VEvent;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.ask.Asker;
import org.lightledger.session.Anchor;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.testing.TestClock;

/** Calendar files one after the other, read by a general-purpose calendar library (ical4j). */
class CalendarKeepingTest {
  private static final LocalDateTime CALL = LocalDateTime.of(2026, 12, 15, 15, 0);
  private static final String UID = "u-7f3a9c-";

  @TempDir Path folder;
  private final TestClock clock = new TestClock(Instant.parse("2026-11-25T12:00:00Z"));
  private Ledger ledger;
  private CalendarKeeping calendar;
  private long id;

  @BeforeEach
  void plan() {
    SunEphemeris sun = new SpaEphemeris();
    ledger = Ledger.open(folder, clock);
    Studio studio = new Studio(ledger, new Asker(sun), sun, clock);
    calendar = new CalendarKeeping(ledger, studio, sun, clock);
    ledger.change(
        session -> {
          for (long spot = 1; spot <= 3; spot++) {
            session.spots().insert(OutgoingSamples.spot(spot));
          }
          session.clients().add(OutgoingSamples.adult());
          id =
              session
                  .sessions()
                  .add(OutgoingSamples.session(CALL.toLocalDate(), OutgoingSamples.MADRID));
          session.plans().keep(id, stops(2));
        });
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  private static KeptPlan stops(int number) {
    KeptPlan plan = OutgoingSamples.plan(CALL, OutgoingSamples.MADRID, number);
    return new KeptPlan(
        plan.madeAt(),
        plan.sky(),
        plan.byHand(),
        plan.callTime(),
        plan.end(),
        plan.meeting(),
        plan.stops().stream()
            .map(
                stop ->
                    new KeptPlan.Stop(
                        stop.spotId(),
                        stop.arrive(),
                        stop.shootFrom(),
                        stop.shootUntil(),
                        stop.leave(),
                        stop.outfit(),
                        stop.changes(),
                        stop.drive(),
                        stop.facing(),
                        null))
            .toList());
  }

  /** What an entry of the next file says: its status, sequence and start. */
  private record Said(String status, int sequence, Instant start) {
    boolean isCancelled() {
      return status.equals("CANCELLED");
    }
  }

  private Map<String, Said> next() throws Exception {
    Map<String, Said> said = new TreeMap<>();
    String file = calendar.file(id).orElseThrow();
    for (VEvent event :
        new CalendarBuilder()
            .build(new StringReader(file))
            .<VEvent>getComponents(Component.VEVENT)) {
      said.put(
          event
              .getUid()
              .orElseThrow()
              .getValue()
              .replaceFirst("^" + UID, "")
              .replaceFirst("@.*", ""),
          new Said(
              event.getRequiredProperty("STATUS").getValue(),
              Integer.parseInt(event.getRequiredProperty("SEQUENCE").getValue()),
              start(event)));
    }
    return said;
  }

  private static Instant start(VEvent event) {
    Temporal start = event.getDateTimeStart().getDate();
    return start instanceof LocalDate day
        ? day.atStartOfDay(OutgoingSamples.MADRID).toInstant()
        : Instant.from(start);
  }

  private static LocalDate day(Said said) {
    return LocalDate.ofInstant(said.start(), OutgoingSamples.MADRID);
  }

  private boolean isBehind() {
    return ledger.read(
        session -> calendar.isBehind(session, session.sessions().find(id).orElseThrow()));
  }

  @Test
  void whatIsNoMoreIsTakenBackAndComesAgainWhenItIsPlannedAgain() throws Exception {
    assertThat(isBehind()).isFalse();
    Map<String, Said> first = next();
    assertThat(first).containsKeys("call-time", "rehearse-1", "rehearse-2", "session");
    assertThat(first.values()).noneMatch(Said::isCancelled);
    assertThat(next()).as("nothing has changed").isEqualTo(first);
    assertThat(isBehind()).isFalse();

    ledger.change(session -> session.plans().forget(id));
    assertThat(isBehind()).isTrue();
    Map<String, Said> second = next();
    assertThat(second).containsOnlyKeys(first.keySet());
    for (String gone : List.of("call-time", "rehearse-1", "rehearse-2")) {
      assertThat(second.get(gone).isCancelled()).as(gone).isTrue();
      assertThat(second.get(gone).start()).as(gone).isEqualTo(first.get(gone).start());
      assertThat(second.get(gone).sequence()).isGreaterThan(first.get(gone).sequence());
    }
    assertThat(second.get("session").isCancelled()).isFalse();
    assertThat(isBehind()).isFalse();

    ledger.change(session -> session.plans().keep(id, stops(1)));
    assertThat(isBehind()).isTrue();
    Map<String, Said> third = next();
    assertThat(third.get("rehearse-2").isCancelled()).as("it stops there no more").isTrue();
    assertThat(third.get("rehearse-1").isCancelled()).isFalse();
    assertThat(third.get("call-time").isCancelled()).isFalse();
    assertThat(third.get("call-time").sequence()).isGreaterThan(second.get("call-time").sequence());
  }

  /** Agreeing a plan changes the session, and nothing that the calendar shows. */
  @Test
  void aCalendarThatSaysTheSameIsNotBehind() throws Exception {
    next();
    ledger.change(session -> session.sessions().setState(id, Session.State.PLANNED));
    assertThat(isBehind()).isFalse();
    ledger.change(session -> session.sessions().setState(id, Session.State.CANCELLED));
    assertThat(isBehind()).isTrue();
    assertThat(next().values()).allMatch(Said::isCancelled);
    assertThat(isBehind()).isFalse();
  }

  @Test
  void aRehearsalMakesWayForAnotherSessionAndTheCalendarLearnsOfIt() throws Exception {
    Map<String, Said> before = next();
    LocalDate rehearsal = day(before.get("rehearse-1"));
    ledger.change(
        session ->
            session
                .sessions()
                .add(
                    new Session(
                        0,
                        "another",
                        0,
                        1,
                        rehearsal,
                        OutgoingSamples.MADRID,
                        new Anchor.StartsAt(LocalTime.of(13, 0)),
                        Terms.USUAL,
                        Session.State.BOOKED,
                        Session.Brief.EMPTY)));

    Map<String, Said> after = next();

    assertThat(day(after.get("rehearse-1"))).isNotEqualTo(rehearsal);
    assertThat(after.get("rehearse-1").sequence())
        .isGreaterThan(before.get("rehearse-1").sequence());
  }

  /** What is rehearsed before the plan goes out can still change it; the past is over. */
  @Test
  void rehearsalsAreStillToComeAndBeforeThePlanGoesOut() throws Exception {
    Instant planDue = next().get("due-plan").start();
    assertThat(next().get("rehearse-1").start())
        .isBetween(Instant.parse("2026-11-25T12:00:00Z"), planDue);

    clock.advance(Duration.ofDays(14));
    Map<String, Said> late = next();
    assertThat(late.get("rehearse-1").start()).isAfter(clock.instant());
    clock.advance(Duration.ofDays(5));
    assertThat(isBehind()).isFalse();
    assertThat(next()).as("what is over is not taken back").doesNotContainKey("rehearse-1");
  }

  @Test
  void noSessionHasNoFile() {
    assertThat(calendar.file(99)).isEmpty();
  }
}

package org.lightledger.session.calendar;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.time.zone.ZoneOffsetTransition;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.Component;
import net.fortuna.ical4j.model.component.Observance;
import net.fortuna.ical4j.model.component.VEvent;
import net.fortuna.ical4j.model.component.VTimeZone;
import net.fortuna.ical4j.model.property.RRule;
import net.fortuna.ical4j.model.property.TzOffsetTo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.lightledger.session.Anchor;
import org.lightledger.session.outgoing.Agenda;
import org.lightledger.session.outgoing.AgendaMaker;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.sun.SpaEphemeris;

/** What is written here is read by another library. */
class CalendarFileTest {
  private static final DateTimeFormatter WRITTEN = DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss");
  private static final Instant NOW = Instant.parse("2026-01-02T03:04:05Z");

  /** Sessions in the week before and after each change of the clocks. */
  static Stream<ZonedDateTime> sessionsAroundChanges() {
    List<ZonedDateTime> calls = new ArrayList<>();
    for (String id :
        List.of("Europe/Madrid", "America/New_York", "Pacific/Auckland", "Australia/Lord_Howe")) {
      ZoneId zone = ZoneId.of(id);
      Instant at = Instant.parse("2026-01-01T00:00:00Z");
      for (int i = 0; i < 2; i++) {
        at = zone.getRules().nextTransition(at).getInstant();
        for (int days : new int[] {-7, -1, 1, 7}) {
          calls.add(at.atZone(zone).plusDays(days).with(LocalTime.of(17, 10)));
        }
      }
    }
    return calls.stream();
  }

  @ParameterizedTest
  @MethodSource("sessionsAroundChanges")
  void everyEntryHasItsLocalTimeByTheZoneThatTheFileCarries(ZonedDateTime call) throws Exception {
    Agenda agenda = agenda(call.toLocalDateTime(), call.getZone());

    Calendar read = read(CalendarFile.text(agenda, NOW));

    assertThat(read.validate().hasErrors()).isFalse();
    assertThat(read.getComponents(Component.VEVENT)).hasSameSizeAs(agenda.entries());
    for (Agenda.Entry entry : agenda.entries()) {
      Agenda.Span span = (Agenda.Span) entry.time();
      VEvent event = event(read, entry.uid());
      assertThat(event.getRequiredProperty("DTSTART").getValue())
          .isEqualTo(WRITTEN.format(span.from().atZone(call.getZone())));
      assertThat(event.<ZonedDateTime>getDateTimeStart().getDate().toInstant())
          .as("%s in %s", entry.uid(), call.getZone())
          .isEqualTo(span.from());
    }
    assertThat(
            event(read, "u-7f3a9c-call-time@lightledger").getRequiredProperty("DTSTART").toString())
        .isEqualTo("DTSTART;TZID=" + call.getZone() + ":" + WRITTEN.format(call) + "\r\n");
  }

  @Test
  void aRuleIsToldInTheWordsThatEveryCalendarKnows() {
    String text =
        CalendarFile.text(
            agenda(LocalDateTime.of(2026, 6, 30, 17, 10), OutgoingSamples.MADRID), NOW);

    assertThat(text)
        .contains("RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=3\r\n")
        .contains("RRULE:FREQ=YEARLY;BYDAY=-1SU;BYMONTH=10\r\n");
  }

  /** Each zone that this Java knows, around each change of its clocks in six years. */
  @Test
  void everyZoneTellsEveryTimeAsItsClocksDo() throws Exception {
    Set<String> wrong = new TreeSet<>();
    int compared = 0;
    for (String id : ZoneId.getAvailableZoneIds()) {
      if (!id.matches("[A-Z][A-Za-z]+/.+") || id.startsWith("SystemV/")) {
        continue;
      }
      ZoneId zone = ZoneId.of(id);
      List<Agenda.Entry> entries = aroundChanges(zone);
      if (entries.isEmpty()) {
        continue;
      }
      Calendar read = read(CalendarFile.text(new Agenda(zone, 0, false, entries), NOW));
      VTimeZone told = (VTimeZone) read.getComponent(Component.VTIMEZONE).orElseThrow();
      for (Agenda.Entry entry : entries) {
        Instant from = ((Agenda.Span) entry.time()).from();
        if (offsetSecondsAt(told, LocalDateTime.ofInstant(from, zone))
            != zone.getRules().getOffset(from).getTotalSeconds()) {
          wrong.add(id + " " + from);
        }
        compared++;
      }
    }
    assertThat(wrong).isEmpty();
    assertThat(compared).isGreaterThan(5_000);
  }

  private static List<Agenda.Entry> aroundChanges(ZoneId zone) {
    List<Agenda.Entry> entries = new ArrayList<>();
    Instant end = Instant.parse("2032-01-01T00:00:00Z");
    ZoneOffsetTransition change = zone.getRules().nextTransition(NOW);
    while (change != null && change.getInstant().isBefore(end)) {
      for (int days : new int[] {-20, -6, -1, 1, 6, 20}) {
        Instant from = change.getInstant().plus(Duration.ofDays(days));
        entries.add(
            new Agenda.Entry(
                "at-" + from,
                "At",
                "",
                null,
                new Agenda.Span(from, from.plusSeconds(900)),
                null,
                false));
      }
      change = zone.getRules().nextTransition(change.getInstant());
    }
    return entries;
  }

  /** Morocco sets its clocks for Ramadan, by decree and not by a rule. */
  @Test
  void aZoneWithoutARuleHasEachOfItsChanges() throws Exception {
    ZoneId casablanca = ZoneId.of("Africa/Casablanca");
    Agenda agenda = agenda(LocalDateTime.of(2026, 3, 20, 17, 10), casablanca);

    Calendar read = read(CalendarFile.text(agenda, NOW));

    VTimeZone zone = (VTimeZone) read.getComponent(Component.VTIMEZONE).orElseThrow();
    for (Agenda.Entry entry : agenda.entries()) {
      Instant from = ((Agenda.Span) entry.time()).from();
      assertThat(offsetSecondsAt(zone, LocalDateTime.ofInstant(from, casablanca)))
          .isEqualTo(casablanca.getRules().getOffset(from).getTotalSeconds());
    }
    assertThat(zone.getObservances()).hasSizeGreaterThan(2);
  }

  /** The offset that RFC 5545 gives a local time: that of the latest onset before it. */
  private static int offsetSecondsAt(VTimeZone zone, LocalDateTime local) {
    LocalDateTime latest = LocalDateTime.MIN;
    TzOffsetTo holds = null;
    for (Observance observance : zone.getObservances()) {
      for (LocalDateTime onset : onsets(observance, local)) {
        if (!onset.isAfter(local) && !onset.isBefore(latest)) {
          latest = onset;
          holds = observance.getRequiredProperty("TZOFFSETTO");
        }
      }
    }
    return holds.getOffset().getTotalSeconds();
  }

  /** The onsets of two years up to a time; a rule counts from its first onset on (ical4j). */
  private static List<LocalDateTime> onsets(Observance observance, LocalDateTime until) {
    LocalDateTime first =
        LocalDateTime.parse(observance.getRequiredProperty("DTSTART").getValue(), WRITTEN);
    return observance
        .<RRule<LocalDateTime>>getProperty("RRULE")
        .map(rule -> rule.getRecur().getDates(first, until.minusYears(2), until))
        .filter(found -> first.isBefore(until.minusYears(2)) || found.contains(first))
        .orElse(List.of(first));
  }

  @Test
  void aChangedPlanUpdatesWhatTheCalendarHas() throws Exception {
    Agenda before = agenda(LocalDateTime.of(2026, 12, 15, 15, 0), OutgoingSamples.MADRID);
    Agenda after =
        new Agenda(before.zone(), before.revision() + 1, before.cancelled(), before.entries());

    VEvent old = event(read(CalendarFile.text(before, NOW)), "u-7f3a9c-session@lightledger");
    VEvent young =
        event(read(CalendarFile.text(after, NOW.plusSeconds(60))), "u-7f3a9c-session@lightledger");

    assertThat(old.getRequiredProperty("SEQUENCE").getValue()).isEqualTo("3");
    assertThat(young.getRequiredProperty("SEQUENCE").getValue()).isEqualTo("4");
  }

  @Test
  void aCancelledSessionIsCancelledInTheCalendarAndCallsNobody() throws Exception {
    Agenda agenda = agenda(LocalDateTime.of(2026, 12, 15, 15, 0), OutgoingSamples.MADRID);

    Calendar read =
        read(CalendarFile.text(new Agenda(agenda.zone(), 4, true, agenda.entries()), NOW));

    assertThat(read.<VEvent>getComponents(Component.VEVENT))
        .allSatisfy(
            event -> {
              assertThat(event.getRequiredProperty("STATUS").getValue()).isEqualTo("CANCELLED");
              assertThat(event.getAlarms()).isEmpty();
            });
  }

  @Test
  void linesAreFoldedAtSeventyFiveOctetsAndTextComesBackAsItWas() throws Exception {
    String hostile = "Comma, semicolon; back\\slash\nBEGIN:VEVENT\n" + "ñ𝒳é—".repeat(40) + " end";
    Agenda agenda = agenda(LocalDateTime.of(2026, 12, 15, 15, 0), OutgoingSamples.MADRID);
    Agenda.Entry entry = agenda.entries().get(0);
    Agenda.Entry written =
        new Agenda.Entry(
            entry.uid(), "A, b; c", hostile, entry.place(), entry.time(), Duration.ZERO, true);

    String text = CalendarFile.text(new Agenda(agenda.zone(), 0, false, List.of(written)), NOW);

    assertThat(text.split("\r\n"))
        .allSatisfy(line -> assertThat(line.getBytes(UTF_8).length).isBetween(1, 75))
        .allSatisfy(line -> assertThat(line).doesNotContain("\n", "\r", "\ufffd"));
    VEvent read = event(read(text), entry.uid());
    assertThat(read.getRequiredProperty("SUMMARY").getValue()).isEqualTo("A, b; c");
    assertThat(read.getRequiredProperty("DESCRIPTION").getValue()).isEqualTo(hostile);
    assertThat(read.getAlarms()).hasSize(1);
  }

  @Test
  void noTitleHoldsTheFullNameOfAMinorNorAnyContact() {
    Dossier dossier =
        OutgoingSamples.dossier(
            OutgoingSamples.minor(),
            LocalDateTime.of(2026, 12, 15, 15, 0),
            OutgoingSamples.MADRID,
            5);

    String text =
        CalendarFile.text(
            AgendaMaker.of(new SpaEphemeris(), dossier, OutgoingSamples.studio(), List.of(), NOW),
            NOW);

    assertThat(text.replace("\r\n ", ""))
        .contains("SUMMARY:Session with Nilo", "SUMMARY:Rehearse the light: Reed Bank")
        .doesNotContain("Quiroga", "Saavedra", "600 100", "example.org", "Plaza");
  }

  @Test
  void aSessionWithoutAPlanThatEndsAtSunsetTakesItsDay() throws Exception {
    Dossier dossier =
        OutgoingSamples.dossier(
            OutgoingSamples.adult(),
            LocalDateTime.of(2026, 3, 29, 15, 0),
            OutgoingSamples.MADRID,
            0);

    Calendar read =
        read(
            CalendarFile.text(
                AgendaMaker.of(
                    new SpaEphemeris(), dossier, OutgoingSamples.studio(), List.of(), NOW),
                NOW));

    VEvent session = event(read, "u-7f3a9c-session@lightledger");
    assertThat(session.getRequiredProperty("DTSTART").getValue()).isEqualTo("20260329");
    assertThat(session.getRequiredProperty("DTEND").getValue()).isEqualTo("20260330");
  }

  private static Agenda agenda(LocalDateTime call, ZoneId zone) {
    return AgendaMaker.of(
        new SpaEphemeris(),
        OutgoingSamples.dossier(OutgoingSamples.adult(), call, zone, 1),
        OutgoingSamples.studio(),
        List.of(),
        NOW);
  }

  private static Calendar read(String text) throws Exception {
    return new CalendarBuilder().build(new StringReader(text));
  }

  private static VEvent event(Calendar calendar, String uid) {
    return calendar.<VEvent>getComponents(Component.VEVENT).stream()
        .filter(event -> event.getUid().orElseThrow().getValue().equals(uid))
        .findFirst()
        .orElseThrow();
  }

  /** An end after midnight is that of the night which begins on the session's day. */
  @Test
  void aSessionWithoutAPlanRunsFromItsDayIntoTheNext() {
    Agenda agenda =
        AgendaMaker.of(
            new SpaEphemeris(),
            OutgoingSamples.fixed(
                LocalDate.of(2026, 12, 12),
                OutgoingSamples.MADRID,
                new Anchor.EndsAt(LocalTime.of(0, 30)),
                null,
                Map.of()),
            OutgoingSamples.studio(),
            List.of(),
            NOW);

    assertThat(agenda.entries())
        .filteredOn(entry -> entry.title().equals("Session with Berta"))
        .extracting(Agenda.Entry::time)
        .containsExactly(
            new Agenda.Span(
                Instant.parse("2026-12-12T21:00:00Z"), Instant.parse("2026-12-12T23:30:00Z")));
  }
}

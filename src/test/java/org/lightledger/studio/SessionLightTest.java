package org.lightledger.studio;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Asker;
import org.lightledger.ask.SpotLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.Anchor;
import org.lightledger.session.SessionHours;
import org.lightledger.session.Terms;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.SkylineStore;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEvening;

class SessionLightTest {
  private static final GeoPoint PLACE = new GeoPoint(41.93, -6.42);
  private static final ZoneId ZONE = ZoneId.of("Europe/Madrid");
  private static final Bearing FACING = new Bearing(230);
  private static final Instant NOW = Instant.parse("2026-11-25T12:00:00Z");

  @TempDir Path folder;

  /** Between trees the same light comes and goes: each time is told, and nothing is left out. */
  @Test
  void aLightThatComesTwiceIsToldTwice() {
    SunEphemeris sun = new SpaEphemeris();
    Clock clock = Clock.fixed(NOW, ZoneOffset.UTC);
    Skyline trees = trees();
    try (Ledger ledger = Ledger.open(folder, clock)) {
      long open = add(ledger, new Spot(0, "Heath", null, PLACE, ZONE, true, List.of(), "", ""));
      long avenue = add(ledger, new Spot(0, "Avenue", null, PLACE, ZONE, false, List.of(), "", ""));
      ledger.change(
          session -> {
            session
                .spots()
                .setFacings(
                    avenue,
                    List.of(new Facing(FACING, 15, Facing.Origin.OWNER, 0)),
                    Facing.Origin.OWNER);
            session.skylines().put(new SkylineStore.Due(avenue, PLACE), trees, List.of(), NOW);
          });
      SessionHours hours =
          SessionHours.of(
              new Anchor.StartsAt(LocalTime.of(15, 20)),
              new Terms("Walk", 2, 1, 3, 155),
              SunEvening.of(sun, PLACE, ZONE, LocalDate.of(2026, 12, 1)));
      SessionHours.Span span = Objects.requireNonNull(hours.span());

      Map<Long, List<SessionLight.Stretch>> lights =
          new Studio(ledger, new Asker(sun), sun, clock).light(hours).at(List.of(avenue, open));

      assertThat(lights.get(open)).isEmpty();
      Map<LightClass, Integer> times = new EnumMap<>(LightClass.class);
      OffsetDateTime told = span.start().atZone(ZONE).toOffsetDateTime();
      for (SessionLight.Stretch stretch : lights.get(avenue)) {
        assertThat(Duration.between(told, stretch.from()).abs())
            .isLessThanOrEqualTo(Duration.ofSeconds(1));
        Instant middle =
            stretch
                .from()
                .toInstant()
                .plus(Duration.between(stretch.from(), stretch.until()).dividedBy(2));
        assertThat(stretch.light())
            .isEqualTo(SpotLight.of(sun.direction(middle, PLACE), FACING, trees).light());
        times.merge(stretch.light(), 1, Integer::sum);
        told = stretch.until();
      }
      assertThat(Duration.between(told.toInstant(), span.end()).abs())
          .isLessThanOrEqualTo(Duration.ofSeconds(1));
      assertThat(times.get(LightClass.BACKLIT)).isGreaterThan(1);
      assertThat(times.get(LightClass.OPEN_SHADE)).isGreaterThan(1);

      Answer proposed =
          new Studio(ledger, new Asker(sun), sun, clock)
              .light(hours)
              .propose(Set.of(LightClass.BACKLIT), Set.of(), Set.of(open), 5)
              .get(0);
      List<Duration> lengths =
          lights.get(avenue).stream()
              .filter(stretch -> stretch.light() == LightClass.BACKLIT)
              .map(stretch -> Duration.between(stretch.from(), stretch.until()))
              .toList();
      assertThat(proposed.others()).hasSize(lengths.size() - 1);
      assertThat(within(proposed.window(), span).plusMinutes(1))
          .as("no time with this light is a minute longer")
          .isGreaterThan(Collections.max(lengths));
    }
  }

  /** The minutes from 02:45 on end at 02:05, told by the clock. */
  @Test
  void theNightOnWhichTheClocksGoBackAndOnePastMidnightHaveTheirLight() {
    SunEphemeris sun = new SpaEphemeris();
    Clock clock = Clock.fixed(NOW, ZoneOffset.UTC);
    try (Ledger ledger = Ledger.open(folder, clock)) {
      long avenue = add(ledger, new Spot(0, "Avenue", null, PLACE, ZONE, false, List.of(), "", ""));
      ledger.change(
          session ->
              session
                  .spots()
                  .setFacings(
                      avenue,
                      List.of(new Facing(FACING, 15, Facing.Origin.OWNER, 0)),
                      Facing.Origin.OWNER));
      Studio studio = new Studio(ledger, new Asker(sun), sun, clock);
      for (LocalTime start : List.of(LocalTime.of(2, 45), LocalTime.of(23, 30))) {
        SessionHours hours =
            SessionHours.of(
                new Anchor.StartsAt(start),
                new Terms("Stars", 2, 1, 3, start.getHour() == 2 ? 20 : 60),
                SunEvening.of(sun, PLACE, ZONE, LocalDate.of(2026, 10, 25)));
        SessionLight light = studio.light(hours);

        assertThat(light.at(List.of(avenue)).get(avenue))
            .singleElement()
            .returns(LightClass.DARK, SessionLight.Stretch::light);
        assertThat(light.propose(Set.of(LightClass.DARK), Set.of(), Set.of(), 5)).hasSize(1);
      }
    }
  }

  private static Duration within(Answer.Window window, SessionHours.Span span) {
    Instant from = window.from().toInstant();
    Instant to = window.to().toInstant();
    return Duration.between(
        from.isBefore(span.start()) ? span.start() : from,
        to.isAfter(span.end()) ? span.end() : to);
  }

  private static long add(Ledger ledger, Spot spot) {
    return ledger.write(session -> session.spots().insert(spot));
  }

  /** Trunks as high as the sky, four degrees wide, every eight. */
  private static Skyline trees() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, step / 8 % 2 == 0 ? 1 : 60, 0.2, SkylineSource.BUILDING, Set.of());
    }
    return builder.build();
  }
}

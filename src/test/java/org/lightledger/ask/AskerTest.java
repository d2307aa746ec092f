package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;

class AskerTest {
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final GeoPoint PLACE = new GeoPoint(41.93, -6.42);
  private static final LocalDate DAY = LocalDate.of(2026, 12, 12);
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final Asker ASKER = new Asker(SUN);

  @Test
  void findsTheFacingThatIsBacklitAtTheHour() {
    Answers answers =
        ask(backlitAt(17, 0), spot(1, 235.0), spot(2, 55.0), spot(3, 145.0), spot(4, 250.0));

    assertThat(answers.matches()).extracting(answer -> answer.spot().id()).containsExactly(1L, 4L);
    assertThat(answers.matched()).isEqualTo(2);
    assertThat(answers.considered()).isEqualTo(4);
    Answer best = answers.matches().get(0);
    assertThat(best.light()).isEqualTo(LightClass.BACKLIT);
    assertThat(best.at()).isEqualTo(OffsetDateTime.parse("2026-12-12T17:00:00+01:00"));
    assertThat(best.directSun()).isNull();
    assertThat(best.tier()).isEqualTo(Answer.Tier.GEOMETRY);
    assertThat(best.reason()).contains("At 17:00", "SW", "backlit (0° to 30°)", "not known");
  }

  @Test
  void theWindowEndsWhereTheClassChanges() {
    Answer answer = ask(backlitAt(17, 0), spot(1, 235.0)).matches().get(0);

    Bearing facing = new Bearing(235);
    assertThat(classAt(answer.window().from().toInstant(), facing)).isEqualTo(LightClass.BACKLIT);
    assertThat(classAt(answer.window().to().toInstant(), facing)).isEqualTo(LightClass.BACKLIT);
    assertThat(classAt(answer.window().from().toInstant().minusMillis(200), facing))
        .isEqualTo(LightClass.RIM);
    assertThat(classAt(answer.window().to().toInstant().plusMillis(200), facing))
        .isEqualTo(LightClass.TWILIGHT);
    assertThat(answer.marginDeg()).isGreaterThan(0);
  }

  @Test
  void aSpotWithoutFacingIsASuggestionAndAnOpenSpotAMatch() {
    Spot bare = new Spot(1, "bare", null, PLACE, MADRID, false, List.of(), "", "");
    Spot open = new Spot(2, "open", null, PLACE, MADRID, true, List.of(), "", "");
    Answers answers = ask(backlitAt(17, 0), bare, open);

    assertThat(answers.matches()).extracting(answer -> answer.spot().id()).containsExactly(2L);
    assertThat(answers.suggestions()).extracting(answer -> answer.spot().id()).containsExactly(1L);
    Answer suggestion = answers.suggestions().get(0);
    assertThat(suggestion.facing().turnToDeg(suggestion.sun().azimuth()))
        .isCloseTo(0, within(1e-9));
    assertThat(suggestion.facingBasis()).isEqualTo(Answer.FacingBasis.SUGGESTED);
  }

  @Test
  void aShotInLikeLightThatLooksTheSameWayMakesTheAnswerScouted() {
    Instant earlier = Instant.parse("2026-01-02T16:05:00Z");
    Observation sameWay = observation(10, earlier, 230.0);
    Observation otherWay = observation(11, earlier, 50.0);

    Answer scouted = ask(backlitAt(17, 0), Map.of(1L, List.of(otherWay, sameWay)), spot(1, 235.0));
    assertThat(scouted.tier()).isEqualTo(Answer.Tier.SCOUTED);
    assertThat(scouted.nearestShot()).isNotNull();
    assertThat(scouted.nearestShot().shotId()).isEqualTo(10);
    assertThat(scouted.nearestShot().sunGapDeg())
        .isCloseTo(scouted.sun().gapDeg(sameWay.sun()), within(1e-9));

    Answer notScouted = ask(backlitAt(17, 0), Map.of(1L, List.of(otherWay)), spot(1, 235.0));
    assertThat(notScouted.tier()).isEqualTo(Answer.Tier.GEOMETRY);
    assertThat(notScouted.nearestShot().shotId()).isEqualTo(11);
  }

  @Test
  void aRangeOfDaysCountsTheDaysWithTheLight() {
    Question month =
        new Question(
            Set.of(LightClass.BACKLIT),
            LocalDate.of(2026, 12, 1),
            LocalDate.of(2026, 12, 31),
            new TimeOfDay.Clock(LocalTime.of(17, 0), LocalTime.of(17, 0)),
            null);

    assertThat(ask(month, spot(1, 235.0)).matches().get(0).days()).isEqualTo(31);
  }

  @Test
  void theHourCanBeCountedFromSunset() {
    Question question =
        new Question(
            Set.of(LightClass.BACKLIT),
            DAY,
            DAY,
            new TimeOfDay.FromSun(TimeOfDay.Anchor.SUNSET, Duration.ofMinutes(-60)),
            null);

    Answer answer = ask(question, spot(1, 235.0)).matches().get(0);
    assertThat(answer.window().to().toInstant())
        .isCloseTo(
            answer.at().toInstant().plusSeconds(3600),
            within(1, java.time.temporal.ChronoUnit.SECONDS));
  }

  @Test
  void anHourThatAClockChangeLeavesOutGivesNoMatch() {
    Question question =
        new Question(
            Set.of(LightClass.values()),
            LocalDate.of(2026, 3, 29),
            LocalDate.of(2026, 3, 29),
            new TimeOfDay.Clock(LocalTime.of(2, 30), LocalTime.of(2, 30)),
            null);

    assertThat(ask(question, spot(1, 235.0)).matches()).isEmpty();
  }

  @Test
  void aSpotWithoutZoneIsNotKnown() {
    Spot adrift = new Spot(1, "adrift", null, PLACE, null, true, List.of(), "", "");
    Answers answers = ask(backlitAt(17, 0), adrift);

    assertThat(answers.matches()).isEmpty();
    assertThat(answers.notKnown().get(0).reason()).contains("zone");
    assertThat(answers.unanswered()).isEqualTo(1);
  }

  @Test
  void openShadeIsNotKnownWithoutASkyline() {
    Question question =
        new Question(
            Set.of(LightClass.OPEN_SHADE),
            DAY,
            DAY,
            new TimeOfDay.Clock(LocalTime.of(17, 0), LocalTime.of(17, 0)),
            null);

    assertThat(ask(question, spot(1, 235.0)).notKnown().get(0).reason()).contains("skyline");
  }

  @Test
  void badQuestionsSayWhatIsExpected() {
    assertThatThrownBy(
            () ->
                new Question(
                    Set.of(),
                    DAY,
                    DAY,
                    new TimeOfDay.FromSun(TimeOfDay.Anchor.SUNSET, Duration.ZERO),
                    null))
        .hasMessageContaining("at least one light class");
    assertThatThrownBy(() -> new TimeOfDay.Clock(LocalTime.of(17, 0), LocalTime.of(16, 0)))
        .hasMessageContaining("17:00..16:00");
    assertThatThrownBy(() -> new Question.Near(PLACE, Double.NaN)).hasMessageContaining("NaN");
  }

  private static Question backlitAt(int hour, int minute) {
    LocalTime time = LocalTime.of(hour, minute);
    return new Question(
        Set.of(LightClass.BACKLIT), DAY, DAY, new TimeOfDay.Clock(time, time), null);
  }

  private static Spot spot(long id, double facingDeg) {
    return new Spot(
        id,
        "spot " + id,
        null,
        PLACE,
        MADRID,
        false,
        List.of(new Facing(new Bearing(facingDeg), 15, Facing.Origin.SHOTS, 3)),
        "",
        "");
  }

  private static Observation observation(long shotId, Instant at, double facingDeg) {
    return new Observation(
        shotId,
        at.atZone(MADRID).toOffsetDateTime(),
        SUN.direction(at, PLACE),
        new Bearing(facingDeg),
        null);
  }

  private static LightClass classAt(Instant instant, Bearing facing) {
    return LightRules.classify(SUN.direction(instant, PLACE), facing);
  }

  private static Answers ask(Question question, Spot... spots) {
    return ASKER.ask(question, new FixedStock(List.of(spots), Map.of()), 100);
  }

  private static Answer ask(
      Question question, Map<Long, List<Observation>> observations, Spot... spots) {
    return ASKER.ask(question, new FixedStock(List.of(spots), observations), 100).matches().get(0);
  }

  /** A stock that is given, not stored. */
  record FixedStock(List<Spot> all, Map<Long, List<Observation>> seen, Map<Long, Skyline> skylines)
      implements Stock {
    FixedStock(List<Spot> all, Map<Long, List<Observation>> seen) {
      this(all, seen, Map.of());
    }

    @Override
    public List<Spot> spots(Question.@Nullable Near near) {
      return all;
    }

    @Override
    public Map<Long, List<Observation>> observations(Collection<Long> spotIds) {
      return seen;
    }

    @Override
    public Set<Long> spotsWith(Set<Trait> traits) {
      return traits.contains(Trait.PARKING) ? Set.of(2L) : Set.of();
    }

    @Override
    public Set<Long> spotsWithSkyline() {
      return skylines.keySet();
    }

    @Override
    public Map<Long, Skyline> skylines(Collection<Long> spotIds) {
      return skylines;
    }
  }
}

package org.lightledger.ask;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SpaEphemeris;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

class TermsTest {
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final GeoPoint PLACE = new GeoPoint(41.93, -6.42);

  /** A Saturday. */
  private static final LocalDate DAY = LocalDate.of(2026, 12, 12);

  private static final Set<DayOfWeek> ALL_DAYS = EnumSet.allOf(DayOfWeek.class);
  private static final Asker ASKER = new Asker(new SpaEphemeris());

  @Test
  void onlyTheWantedDaysOfTheWeekCount() {
    Answers weekend =
        ask(
            LightClass.BACKLIT,
            DAY,
            DAY.plusDays(13),
            terms(
                Terms.SunWanted.EITHER,
                Set.of(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY),
                Duration.ZERO,
                Set.of(),
                null),
            null);

    assertThat(weekend.matches().get(0).days()).isEqualTo(4);
  }

  @Test
  void anOvercastSkyGivesEvenLightWhateverTheFacingAndTheSkyline() {
    Terms overcast =
        new Terms(Sky.OVERCAST, Terms.SunWanted.EITHER, ALL_DAYS, Duration.ZERO, Set.of(), null);

    assertThat(ask(LightClass.BACKLIT, DAY, DAY, overcast, null).matches()).isEmpty();
    Answer answer = ask(LightClass.OPEN_SHADE, DAY, DAY, overcast, null).matches().get(0);
    assertThat(answer.directSun()).isFalse();
    assertThat(answer.reason()).contains("under an overcast sky the light is even");
    assertThat(answer.window().to().getHour()).isEqualTo(17);
  }

  @Test
  void directSunIsAskedForAndNotTakenForGranted() {
    Terms direct = terms(Terms.SunWanted.DIRECT, ALL_DAYS, Duration.ZERO, Set.of(), null);

    Answers unknown = ask(LightClass.BACKLIT, DAY, DAY, direct, null);
    assertThat(unknown.matches()).isEmpty();
    assertThat(unknown.notKnown())
        .singleElement()
        .extracting(Answers.NotKnown::reason)
        .asString()
        .contains("whether the sun reaches this spot then is not known");
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, direct, level(2)).matches()).hasSize(1);
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, direct, level(20)).matches()).isEmpty();
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, direct, level(20)).notKnown()).isEmpty();
  }

  @Test
  void aLightThatIsTooShortIsNoMatch() {
    Answer answer = ask(LightClass.BACKLIT, DAY, DAY, Terms.NONE, null).matches().get(0);
    Duration length = Duration.between(answer.window().from(), answer.window().to());

    assertThat(ask(LightClass.BACKLIT, DAY, DAY, lasting(length), null).matched()).isEqualTo(1);
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, lasting(length.plusSeconds(1)), null).matched())
        .isZero();
  }

  @Test
  void traitsAndShapesChooseTheSpots() {
    Terms parking =
        terms(Terms.SunWanted.EITHER, ALL_DAYS, Duration.ZERO, Set.of(Trait.PARKING), null);
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, parking, null).considered())
        .as("only spot 2 of the stock has parking")
        .isZero();
    Shape around = Shape.parse("41.9,-6.5;41.9,-6.4;42,-6.4;42,-6.5");
    Shape beside = Shape.parse("41.9,-6.4;41.9,-6.3;42,-6.3;42,-6.4");
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, inside(around), null).considered()).isEqualTo(1);
    assertThat(ask(LightClass.BACKLIT, DAY, DAY, inside(beside), null).considered()).isZero();
  }

  /** Against JTS, a general geometry library. */
  @Test
  void shapesHoldWhatPolygonsContain() {
    Random random = new Random(7);
    GeometryFactory factory = new GeometryFactory();
    for (int i = 0; i < 300; i++) {
      double middleDeg = i % 3 == 0 ? 179.5 : random.nextInt(300) - 150;
      int corners = 3 + random.nextInt(8);
      Coordinate[] ring = new Coordinate[corners + 1];
      List<GeoPoint> points = new java.util.ArrayList<>();
      for (int corner = 0; corner < corners; corner++) {
        double angle = 2 * Math.PI * corner / corners;
        double radius = 0.5 + random.nextDouble() * 3;
        double north = radius * Math.sin(angle);
        double east = middleDeg + radius * Math.cos(angle);
        ring[corner] = new Coordinate(east, north);
        points.add(new GeoPoint(north, wrapped(east)));
      }
      ring[corners] = ring[0];
      Polygon polygon = factory.createPolygon(ring);
      Shape shape = new Shape(points);
      for (int probe = 0; probe < 40; probe++) {
        double north = random.nextDouble() * 8 - 4;
        double east = middleDeg + random.nextDouble() * 8 - 4;
        assertThat(shape.holds(new GeoPoint(north, wrapped(east))))
            .isEqualTo(polygon.contains(factory.createPoint(new Coordinate(east, north))));
      }
      assertThat(Shape.parse(shape.toText()).corners()).hasSize(corners);
    }
  }

  private static double wrapped(double eastDeg) {
    return eastDeg >= 180 ? eastDeg - 360 : eastDeg;
  }

  @Test
  void badTermsSayWhatIsExpected() {
    assertThatThrownBy(() -> Shape.parse("1,1;2,2")).hasMessageContaining("3 to 500 corners");
    assertThatThrownBy(() -> lasting(Duration.ofMinutes(-1))).hasMessageContaining("0 to 1440");
    assertThatThrownBy(() -> terms(Terms.SunWanted.EITHER, Set.of(), Duration.ZERO, Set.of(), null))
        .hasMessageContaining("at least one day of the week");
    assertThatThrownBy(() -> Trait.parse("toilets")).hasMessageContaining("place-to-change");
  }

  private static Terms lasting(Duration length) {
    return terms(Terms.SunWanted.EITHER, ALL_DAYS, length, Set.of(), null);
  }

  private static Terms inside(Shape shape) {
    return terms(Terms.SunWanted.EITHER, ALL_DAYS, Duration.ZERO, Set.of(), shape);
  }

  private static Terms terms(
      Terms.SunWanted sun,
      Set<DayOfWeek> weekdays,
      Duration atLeast,
      Set<Trait> traits,
      @Nullable Shape shape) {
    return new Terms(Sky.CLEAR, sun, weekdays, atLeast, traits, shape);
  }

  private static Skyline level(double altitudeDeg) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.4, SkylineSource.TERRAIN, Set.of());
    }
    return builder.build();
  }

  private static Answers ask(
      LightClass light, LocalDate first, LocalDate last, Terms terms, @Nullable Skyline skyline) {
    LocalTime hour = LocalTime.of(17, 0);
    Facing facing = new Facing(new Bearing(235), 15, Facing.Origin.SHOTS, 3);
    Spot spot = new Spot(1, "spot", null, PLACE, MADRID, false, List.of(facing), "", "");
    return ASKER.ask(
        new Question(Set.of(light), first, last, new TimeOfDay.Clock(hour, hour), null, terms),
        new AskerTest.FixedStock(
            List.of(spot), Map.of(), skyline == null ? Map.of() : Map.of(1L, skyline)),
        100);
  }
}

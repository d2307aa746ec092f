package org.lightledger.field;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.ask.SpotLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.magnetic.WorldMagneticModel;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

class FieldDayTest {
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final GeoPoint BANK = new GeoPoint(41.93, -6.42);
  private static final Bearing SOUTHWEST = new Bearing(231.5);
  private static final LocalDate DAY = LocalDate.of(2026, 12, 15);

  private static Spot spot(Facing... facings) {
    return new Spot(
        7, "Reed <\"Bank\">", null, BANK, MADRID, false, List.of(facings), "PRIVATE", "Mud.");
  }

  private static Facing facing(double deg) {
    return new Facing(new Bearing(deg), 15, Facing.Origin.OWNER, 0);
  }

  /** A wall of 5 degrees all around. */
  private static Skyline wall() {
    return MeasuredSkyline.of(
        List.of(new MeasuredSkyline.Point(0, 5), new MeasuredSkyline.Point(180, 5)));
  }

  @ParameterizedTest
  @CsvSource({"2026-12-15, 1440", "2026-03-29, 1380", "2026-10-25, 1500"})
  void aDayIsAsLongAsItIsThere(LocalDate date, int minutes) {
    FieldDay day = new FieldDay(SUN, date, MADRID);
    FieldSpot spot = day.spot(spot(), Set.of(), null, List.of());

    assertThat(day.minutes()).isEqualTo(minutes);
    assertThat(spot.azimuthTenths()).hasSize(minutes);
    assertThat(spot.altitudeTenths()).hasSize(minutes);
  }

  /** A session that goes on after midnight is on the phone to its end; a short one to midnight. */
  @ParameterizedTest
  @CsvSource({
    "2026-12-15T23:30:00Z, 1470",
    "2026-12-15T23:30:01Z, 1471",
    "2026-12-15T17:00:00Z, 1440"
  })
  void aDayLastsUntilItsSessionIsOver(Instant over, int minutes) {
    FieldDay day = new FieldDay(SUN, DAY, MADRID, over);

    assertThat(day.minutes()).isEqualTo(minutes);
    assertThat(day.spot(spot(), Set.of(), null, List.of()).azimuthTenths()).hasSize(minutes);
  }

  /** What is looked up is what is computed: light, reach and sun, at random moments. */
  @Test
  void theTableSaysWhatAnAnswerWouldSay() {
    Skyline skyline = wall();
    FieldDay day = new FieldDay(SUN, DAY, MADRID);
    FieldSpot field = day.spot(spot(facing(60)), Set.of(), skyline, List.of(SOUTHWEST));
    Random random = new Random(5);

    for (int i = 0; i < 500; i++) {
      int minute = random.nextInt(day.minutes());
      Instant middle = day.from().plusSeconds(minute * 60L + 30);
      SunDirection sun = SUN.direction(middle, BANK);
      assertThat(field.azimuthTenths().get(minute) / 10.0)
          .isCloseTo(sun.azimuth().trueDeg(), within(0.0501));
      assertThat(field.altitudeTenths().get(minute) / 10.0)
          .isCloseTo(sun.apparentAltitudeDeg(), within(0.0501));
      for (FacingLight facing : field.facings()) {
        assertThat(codeAt(facing.lights(), minute))
            .isEqualTo(SpotLight.of(sun, facing.facing(), skyline).light().code());
      }
      SpotLight light = SpotLight.of(sun, SOUTHWEST, skyline);
      boolean close =
          light.clearance() != null
              && Math.abs(light.clearance().marginDeg()) <= light.clearance().uncertaintyDeg();
      assertThat(codeAt(field.direct(), minute))
          .isEqualTo(
              light.light() == LightClass.DARK || light.light() == LightClass.TWILIGHT
                  ? "down"
                  : close
                      ? "not-certain"
                      : Boolean.TRUE.equals(light.directSun()) ? "direct" : "shade");
    }
    assertThat(field.direct().stream().map(DayRun::code))
        .containsExactly("down", "shade", "not-certain", "direct", "not-certain", "shade", "down");
  }

  @Test
  void withoutASkylineItIsNotKnownWhetherTheSunReaches() {
    FieldSpot field =
        new FieldDay(SUN, DAY, MADRID).spot(spot(), Set.of(), null, List.of(SOUTHWEST));

    assertThat(field.direct().stream().map(DayRun::code))
        .containsExactly("down", "not-known", "down");
  }

  @Test
  void aPlannedFacingIsToldOnceAndFirst() {
    FieldSpot field =
        new FieldDay(SUN, DAY, MADRID)
            .spot(spot(facing(231.7), facing(60)), Set.of(), null, List.of(SOUTHWEST));

    assertThat(field.facings().stream().map(FacingLight::facing))
        .containsExactly(SOUTHWEST, new Bearing(60));
    assertThat(field.facings().stream().map(FacingLight::planned)).containsExactly(true, false);
  }

  @Test
  void thePackageIsPlainJsonWithoutTheOwnersNotes() throws IOException {
    FieldDay day = new FieldDay(SUN, DAY, MADRID);
    FieldSpot field =
        day.spot(spot(), Set.of(Hazard.WATER, Hazard.RAILWAY), wall(), List.of(SOUTHWEST));
    String text = new FieldPackage(Instant.EPOCH, day, List.of(field)).toJson();

    JsonNode json = new ObjectMapper().readTree(text);
    JsonNode spot = json.get("spots").get(0);
    assertThat(text).doesNotContain("PRIVATE", "<");
    assertThat(json.get("from").asLong())
        .isEqualTo(DAY.atTime(LocalTime.MIDNIGHT).atZone(MADRID).toInstant().toEpochMilli());
    assertThat(spot.get("name").asText()).isEqualTo("Reed <\"Bank\">");
    assertThat(spot.get("azimuthTenths")).hasSize(1440);
    assertThat(spot.get("hazards").get(0).asText()).startsWith("Railway tracks. Never photograph");
    assertThat(spot.get("hazards").get(1).asText()).startsWith("Deep or moving water. ");
    assertThat(spot.get("facings").get(0).get("words").asText()).isEqualTo("SW 232°");
    assertThat(spot.get("facings").get(0).get("lights").get(0).toString())
        .isEqualTo("[0,\"dark\"]");
    assertThat(spot.get("declinationDeg").asDouble())
        .isCloseTo(
            WorldMagneticModel.field(BANK, 0, Instant.parse("2026-12-15T11:00:30Z"))
                .orElseThrow()
                .declinationDeg(),
            within(0.0051));
    assertThat(text.length()).isLessThan(20_000);
  }

  /** After the last model's years no declination is made up. */
  @Test
  void aDayBeyondTheMagneticModelsHasNoDeclination() {
    FieldSpot field =
        new FieldDay(SUN, LocalDate.of(2041, 6, 1), MADRID).spot(spot(), Set.of(), null, List.of());

    assertThat(field.declinationDeg()).isNull();
  }

  private static String codeAt(List<DayRun> runs, int minute) {
    return runs.stream()
        .filter(run -> run.fromMinute() <= minute)
        .reduce((one, later) -> later)
        .orElseThrow()
        .code();
  }
}

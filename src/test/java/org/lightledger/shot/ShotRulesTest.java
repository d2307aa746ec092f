package org.lightledger.shot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.magnetic.WorldMagneticModel;
import org.lightledger.shot.CaptureTime.Source;
import org.lightledger.shot.Problem.Kind;
import org.lightledger.shot.zone.ZonesAtPlace;

class ShotRulesTest {
  private static final GeoPoint PLACE = new GeoPoint(42.05, -6.63);
  private static final LocalDateTime LOCAL = LocalDateTime.parse("2024-06-21T19:30:05");

  /** Evidence with only what a test sets. */
  private static final class Given {
    private @Nullable LocalDateTime local = LOCAL;
    private @Nullable ZoneOffset offset;
    private @Nullable Instant gps;
    private @Nullable LocalTime gpsTimeOfDay;
    private @Nullable GeoPoint position = PLACE;
    private Evidence.@Nullable Direction direction;
    private List<String> zones = List.of("Europe/Madrid");
    private List<String> unknownZones = List.of();
    private @Nullable ZoneId ownerZone;

    Given local(@Nullable String text) {
      local = text == null ? null : LocalDateTime.parse(text);
      return this;
    }

    Given offset(String text) {
      offset = ZoneOffset.of(text);
      return this;
    }

    Given gps(String text) {
      gps = Instant.parse(text);
      gpsTimeOfDay = gps.atOffset(ZoneOffset.UTC).toLocalTime();
      return this;
    }

    Given gpsTimeOfDay(String text) {
      gpsTimeOfDay = LocalTime.parse(text);
      return this;
    }

    Given position(@Nullable GeoPoint point) {
      position = point;
      return this;
    }

    Given direction(double azimuthDeg, Evidence.North north) {
      direction = new Evidence.Direction(azimuthDeg, north);
      return this;
    }

    Given zones(String... names) {
      zones = List.of(names);
      return this;
    }

    Given unknownZones(String... names) {
      unknownZones = List.of(names);
      return this;
    }

    Given ownerZone(String name) {
      ownerZone = ZoneId.of(name);
      return this;
    }

    Shot shot() {
      Evidence evidence =
          new Evidence(
              "JPEG",
              local,
              offset,
              gps,
              gpsTimeOfDay,
              position,
              null,
              null,
              direction,
              Exposure.UNKNOWN,
              null,
              1,
              null,
              null,
              null,
              List.of());
      ZonesAtPlace answer = new ZonesAtPlace(zones.stream().map(ZoneId::of).toList(), unknownZones);
      return new ShotRules((place, withinM) -> answer).conclude(evidence, ownerZone);
    }
  }

  private static Given given() {
    return new Given();
  }

  private static List<String> messages(Shot shot, Kind kind) {
    return shot.problems().stream()
        .filter(problem -> problem.kind() == kind)
        .map(Problem::message)
        .toList();
  }

  private static CaptureTime.Known known(String instant, String offset, Source source) {
    return new CaptureTime.Known(Instant.parse(instant), ZoneOffset.of(offset), source);
  }

  @Test
  void theOffsetTagComesFirst() {
    Shot shot = given().offset("+02:00").gps("2024-06-21T17:30:02Z").shot();
    assertThat(shot.time()).isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.OFFSET_TAG));
    assertThat(messages(shot, Kind.TIME_CONTRADICTED)).isEmpty();
    assertThat(shot.needsAttention()).isFalse();
  }

  @Test
  void anOffsetTagThatThePlaceContradictsIsUsedAndReported() {
    Shot shot = given().offset("+08:00").shot();
    assertThat(shot.time()).isEqualTo(known("2024-06-21T11:30:05Z", "+08:00", Source.OFFSET_TAG));
    assertThat(messages(shot, Kind.TIME_CONTRADICTED))
        .containsExactly(
            "The file's offset +08:00 is used, but the time zone of the place (Europe/Madrid) has"
                + " +02:00.");
  }

  @Test
  void anOffsetTagThatGpsAloneContradictsIsUsedAndReported() {
    Shot shot = given().offset("+01:00").gps("2024-06-21T17:30:05Z").position(null).zones().shot();
    assertThat(shot.time()).isEqualTo(known("2024-06-21T18:30:05Z", "+01:00", Source.OFFSET_TAG));
    assertThat(messages(shot, Kind.TIME_CONTRADICTED))
        .containsExactly(
            "The time concluded is 1 h 0 min ahead of the file's GPS time, which is not used: it may"
                + " be that of an old fix, or the camera clock is wrong.");
  }

  @Test
  void gpsAndPlaceTogetherOutweighTheOffsetTag() {
    Shot shot = given().offset("+01:00").gps("2024-06-21T17:30:05Z").shot();
    assertThat(shot.time()).isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.GPS_TIME));
    assertThat(messages(shot, Kind.TIME_CONTRADICTED))
        .containsExactly(
            "The file's offset +01:00 is not used: GPS time and the time zone of the place both say"
                + " +02:00.");
  }

  /** The clock's reading stands; the GPS time gives the offset only. */
  @ParameterizedTest
  @CsvSource({
    "2024-06-21T17:30:05Z, +02:00",
    "2024-06-21T17:29:05Z, +02:00",
    "2024-06-21T17:32:05Z, +02:00",
    "2024-06-21T17:28:05Z, +02:00",
    "2024-06-21T14:00:05Z, +05:30",
    "2024-06-21T13:45:05Z, +05:45",
    "2024-06-22T05:30:05Z, -10:00",
    "2024-06-21T05:30:05Z, +14:00"
  })
  void gpsTimeGivesTheOffset(String gps, String offset) {
    Shot shot = given().gps(gps).position(null).zones().shot();
    assertThat(shot.time())
        .isEqualTo(
            new CaptureTime.Known(
                LOCAL.toInstant(ZoneOffset.of(offset)), ZoneOffset.of(offset), Source.GPS_TIME));
  }

  @ParameterizedTest
  @CsvSource({
    "2024-06-21T17:27:00Z",
    "2024-06-21T17:15:05Z",
    "2024-06-21T05:15:05Z",
    "2024-06-20T17:30:05Z",
    "2004-11-05T17:30:05Z",
    "9999-06-21T17:30:05Z"
  })
  void anImpossibleGpsTimeIsNotUsed(String gps) {
    Shot unplaced = given().gps(gps).position(null).zones().shot();
    assertThat(unplaced.time()).isInstanceOf(CaptureTime.Unknown.class);
    Shot placed = given().gps(gps).shot();
    assertThat(placed.time()).isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.PLACE_ZONE));
    assertThat(messages(placed, Kind.TIME_CONTRADICTED)).hasSize(1);
  }

  @Test
  void aDriftOfTheClockIsReportedFromAMinuteOn() {
    assertThat(messages(given().gps("2024-06-21T17:29:05Z").shot(), Kind.TIME_CONTRADICTED))
        .isEmpty();
    assertThat(messages(given().gps("2024-06-21T17:29:04Z").shot(), Kind.TIME_CONTRADICTED))
        .containsExactly("The camera clock runs 61 s ahead of GPS time; the clock is used.");
    assertThat(messages(given().gps("2024-06-21T17:31:35Z").shot(), Kind.TIME_CONTRADICTED))
        .containsExactly("The camera clock runs 90 s behind GPS time; the clock is used.");
  }

  @Test
  void aClockOnAnotherZonesTimeIsCorrectedByGps() {
    Shot shot = given().gps("2024-06-21T15:30:05Z").shot();
    assertThat(shot.time()).isEqualTo(known("2024-06-21T15:30:05Z", "+04:00", Source.GPS_TIME));
    assertThat(messages(shot, Kind.TIME_CONTRADICTED))
        .containsExactly(
            "The camera clock was at +04:00 by GPS time, which is used, but the time zone of the"
                + " place (Europe/Madrid) has +02:00.");
  }

  @Test
  void aGpsTimeThatCopiesTheClockIsAmbiguous() {
    Shot shot = given().gps("2024-06-21T19:30:05Z").shot();
    assertThat(shot.time())
        .isInstanceOfSatisfying(
            CaptureTime.Ambiguous.class,
            ambiguous ->
                assertThat(ambiguous.candidates())
                    .containsExactly(
                        OffsetDateTime.parse("2024-06-21T19:30:05+02:00"),
                        OffsetDateTime.parse("2024-06-21T19:30:05Z")));
    assertThat(shot.needsAttention()).isTrue();
    Shot inLisbonInWinter =
        given()
            .local("2024-01-21T19:30:05")
            .gps("2024-01-21T19:30:05Z")
            .zones("Europe/Lisbon")
            .shot();
    assertThat(inLisbonInWinter.time())
        .isEqualTo(known("2024-01-21T19:30:05Z", "Z", Source.GPS_TIME));
  }

  @Test
  void theZoneOfThePlaceGivesTheInstant() {
    assertThat(given().shot().time())
        .isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.PLACE_ZONE));
    assertThat(given().local("2024-01-21T19:30:05").shot().time())
        .isEqualTo(known("2024-01-21T18:30:05Z", "+01:00", Source.PLACE_ZONE));
  }

  @Test
  void zonesThatAgreeAreOneAnswer() {
    assertThat(given().zones("Europe/Madrid", "Europe/Paris").shot().time())
        .isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.PLACE_ZONE));
  }

  @Test
  void zonesThatDisagreeAreAmbiguousUnlessGpsTimeChooses() {
    Shot shot = given().zones("Europe/Lisbon", "Europe/Madrid").shot();
    assertThat(shot.time())
        .isEqualTo(
            new CaptureTime.Ambiguous(
                LOCAL,
                List.of(
                    OffsetDateTime.parse("2024-06-21T19:30:05+02:00"),
                    OffsetDateTime.parse("2024-06-21T19:30:05+01:00")),
                "The place lies at a border between the time zones Europe/Lisbon, Europe/Madrid,"
                    + " which give different times; choose which."));
    assertThat(messages(shot, Kind.TIME_AMBIGUOUS)).hasSize(1);
    assertThat(
            given().zones("Europe/Lisbon", "Europe/Madrid").gpsTimeOfDay("18:30:00").shot().time())
        .isEqualTo(known("2024-06-21T18:30:05Z", "+01:00", Source.GPS_TIME));
  }

  /** Spain set its clocks back from 3:00 to 2:00 on 2024-10-27 (tzdata). */
  @Test
  void theRepeatedHourIsAmbiguousUnlessGpsTimeChooses() {
    Given repeated = given().local("2024-10-27T02:30:00");
    assertThat(repeated.shot().time())
        .isInstanceOfSatisfying(
            CaptureTime.Ambiguous.class,
            ambiguous ->
                assertThat(ambiguous.candidates())
                    .containsExactly(
                        OffsetDateTime.parse("2024-10-27T02:30:00+02:00"),
                        OffsetDateTime.parse("2024-10-27T02:30:00+01:00")));
    assertThat(repeated.gpsTimeOfDay("01:29:30").shot().time())
        .isEqualTo(known("2024-10-27T01:30:00Z", "+01:00", Source.GPS_TIME));
    assertThat(given().local("2024-10-27T02:30:00").offset("+02:00").shot().time())
        .isEqualTo(known("2024-10-27T00:30:00Z", "+02:00", Source.OFFSET_TAG));
  }

  /** Spain set its clocks forward from 2:00 to 3:00 on 2024-03-31 (tzdata). */
  @Test
  void aTimeInTheSkippedHourIsUnknown() {
    Shot shot = given().local("2024-03-31T02:30:00").shot();
    assertThat(shot.time())
        .isEqualTo(
            new CaptureTime.Unknown(
                LocalDateTime.parse("2024-03-31T02:30:00"),
                "The clocks of Europe/Madrid skipped the local time 2024-03-31T02:30 when they were"
                    + " changed; the camera clock was set wrong."));
    assertThat(messages(shot, Kind.TIME_MISSING)).hasSize(1);
    Shot tagged = given().local("2024-03-31T02:30:00").offset("+01:00").shot();
    assertThat(tagged.time()).isEqualTo(known("2024-03-31T01:30:00Z", "+01:00", Source.OFFSET_TAG));
    assertThat(messages(tagged, Kind.TIME_CONTRADICTED))
        .containsExactly(
            "The file's offset +01:00 is used, but the time zone of the place (Europe/Madrid) skips"
                + " that local time.");
  }

  @Test
  void aGpsTimeOfDayWithoutDateRaisesDoubtButDoesNotDecide() {
    assertThat(given().gpsTimeOfDay("17:29:59").shot().time())
        .isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.PLACE_ZONE));
    assertThat(given().gpsTimeOfDay("18:30:00").shot().time())
        .isInstanceOfSatisfying(
            CaptureTime.Ambiguous.class,
            ambiguous ->
                assertThat(ambiguous.candidates())
                    .containsExactly(
                        OffsetDateTime.parse("2024-06-21T19:30:05+02:00"),
                        OffsetDateTime.parse("2024-06-21T19:30:05+01:00")));
    Shot stale = given().gpsTimeOfDay("15:11:30").shot();
    assertThat(stale.time()).isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.PLACE_ZONE));
    assertThat(messages(stale, Kind.TIME_CONTRADICTED))
        .singleElement()
        .asString()
        .startsWith("The time concluded is 2 h 19 min ahead of the file's GPS time");
    assertThat(given().gpsTimeOfDay("17:30:00").position(null).zones().shot().time())
        .isInstanceOf(CaptureTime.Unknown.class);
  }

  @Test
  void gpsTimeOfDayCrossesMidnight() {
    Shot shot = given().local("2024-06-22T01:00:00").gpsTimeOfDay("23:00:30").shot();
    assertThat(shot.time()).isEqualTo(known("2024-06-21T23:00:00Z", "+02:00", Source.PLACE_ZONE));
    assertThat(messages(shot, Kind.TIME_CONTRADICTED)).isEmpty();
  }

  @Test
  void gpsTimeAloneIsAnInstantInThePlacesZone() {
    assertThat(given().local(null).gps("2024-06-21T17:30:02Z").shot().time())
        .isEqualTo(known("2024-06-21T17:30:02Z", "+02:00", Source.GPS_TIME));
    assertThat(given().local(null).gps("2024-06-21T17:30:02Z").position(null).zones().shot().time())
        .isEqualTo(known("2024-06-21T17:30:02Z", "Z", Source.GPS_TIME));
  }

  @Test
  void theOwnersZoneServesWherePlaceTellsNone() {
    assertThat(given().position(null).zones().ownerZone("America/Denver").shot().time())
        .isEqualTo(known("2024-06-22T01:30:05Z", "-06:00", Source.OWNER));
    assertThat(given().ownerZone("America/Denver").shot().time())
        .isEqualTo(known("2024-06-21T17:30:05Z", "+02:00", Source.PLACE_ZONE));
    assertThat(given().zones().ownerZone("America/Denver").shot().time())
        .isEqualTo(known("2024-06-22T01:30:05Z", "-06:00", Source.OWNER));
  }

  @Test
  void withoutAnyWitnessTheTimeIsUnknownWithItsReason() {
    assertThat(given().local(null).shot().time())
        .isEqualTo(
            new CaptureTime.Unknown(null, "The file holds no capture time; give it by hand."));
    assertThat(given().position(null).zones().shot().time())
        .isEqualTo(
            new CaptureTime.Unknown(
                LOCAL,
                "The file has a local time, but neither an offset nor GPS time nor a place that"
                    + " would tell its zone; give the zone."));
    assertThat(given().zones().shot().time())
        .isEqualTo(
            new CaptureTime.Unknown(
                LOCAL, "No time zone is known at the place of the shot; give the zone."));
    assertThat(given().zones().unknownZones("America/Coyhaique").shot().time())
        .isEqualTo(
            new CaptureTime.Unknown(
                LOCAL,
                "The place lies in the time zone America/Coyhaique, whose rules this Java does not"
                    + " know; update Java or give a zone."));
  }

  @Test
  void zeroZeroIsRefusedByName() {
    for (GeoPoint zero : List.of(new GeoPoint(0, 0), new GeoPoint(-0.0, -0.0))) {
      Shot shot = given().position(zero).zones("Etc/GMT").shot();
      assertThat(shot.position()).isNull();
      assertThat(shot.time())
          .as("no zone follows from 0,0")
          .isInstanceOf(CaptureTime.Unknown.class);
      assertThat(messages(shot, Kind.POSITION_REFUSED))
          .containsExactly(
              "The position of the file is 0,0, which devices write when they have none; place the"
                  + " shot on the map or add a track log.");
      assertThat(messages(shot, Kind.POSITION_MISSING)).isEmpty();
    }
    assertThat(given().position(new GeoPoint(0, 6.5)).shot().position()).isNotNull();
  }

  @Test
  void aMissingPositionIsNamed() {
    Shot shot = given().position(null).zones().shot();
    assertThat(shot.needsAttention()).isTrue();
    assertThat(messages(shot, Kind.POSITION_MISSING))
        .containsExactly(
            "The file holds no position; place the shot on the map or add a track log.");
  }

  @Test
  void aTrueDirectionIsTheFacing() {
    assertThat(given().direction(123.45, Evidence.North.TRUE).shot().facing())
        .isEqualTo(new Shot.Facing(new Bearing(123.45), Shot.FacingSource.TRUE_DIRECTION_TAG));
  }

  @Test
  void aMagneticDirectionIsMadeTrue() {
    GeoPoint auckland = new GeoPoint(-36.85, 174.76);
    Shot.Facing facing =
        given()
            .position(auckland)
            .zones("Pacific/Auckland")
            .direction(350, Evidence.North.MAGNETIC)
            .shot()
            .facing();
    assertThat(facing).isNotNull();
    assertThat(facing.source()).isEqualTo(Shot.FacingSource.MAGNETIC_DIRECTION_TAG);
    double declination =
        WorldMagneticModel.field(auckland, 0, Instant.parse("2024-06-21T07:30:05Z"))
            .orElseThrow()
            .declinationDeg();
    assertThat(declination).as("east of north in New Zealand").isGreaterThan(15);
    assertThat(facing.bearing().trueDeg()).isCloseTo(350 + declination - 360, within(1e-9));
  }

  @Test
  void aMagneticDirectionNeedsADateButNoHour() {
    Given unknown = given().zones().direction(350, Evidence.North.MAGNETIC);
    assertThat(unknown.shot().facing()).isNotNull();
    assertRefused(
        unknown.local(null).shot(),
        "The direction of the file, 350.0 degrees, is magnetic, and without a date it can not be"
            + " made true; give the bearing by hand.");
  }

  @Test
  void directionsThatCanNotBeMadeTrueAreRefused() {
    assertRefused(
        given().direction(90, Evidence.North.NOT_STATED).shot(),
        "The direction of the file, 90.0 degrees, does not say whether true or magnetic north is"
            + " meant, and the Exif standard has no default; the two differ by more than ten degrees"
            + " in many places; give the bearing by hand.");
    assertRefused(
        given().direction(90, Evidence.North.MAGNETIC).position(null).zones().shot(),
        "The direction of the file, 90.0 degrees, is magnetic, and without a place it can not be"
            + " made true; give the bearing by hand.");
    assertRefused(
        given().direction(90, Evidence.North.MAGNETIC).local("2009-06-21T19:30:05").shot(),
        "The direction of the file, 90.0 degrees, is magnetic, and the World Magnetic Models at hand"
            + " cover 2010 to 2029 only; give the bearing by hand.");
    assertRefused(
        given()
            .direction(90, Evidence.North.MAGNETIC)
            .position(new GeoPoint(86, 150))
            .zones("Etc/GMT-10")
            .shot(),
        "The direction of the file, 90.0 degrees, is magnetic, and so near the magnetic pole a"
            + " compass is not to be trusted; give the bearing by hand.");
  }

  private static void assertRefused(Shot shot, String message) {
    assertThat(shot.facing()).isNull();
    assertThat(messages(shot, Kind.DIRECTION_REFUSED)).containsExactly(message);
    assertThat(messages(shot, Kind.DIRECTION_MISSING)).isEmpty();
  }

  @Test
  void theLookupIsAskedForTheErrorThatTheFileStates() {
    Evidence evidence = given().shot().evidence();
    Evidence vague =
        new Evidence(
            "JPEG",
            LOCAL,
            null,
            null,
            null,
            PLACE,
            null,
            165.0,
            null,
            Exposure.UNKNOWN,
            null,
            1,
            null,
            null,
            null,
            List.of());
    List<Double> asked = new ArrayList<>();
    ShotRules rules =
        new ShotRules(
            (place, withinM) -> {
              asked.add(withinM);
              return new ZonesAtPlace(List.of(ZoneId.of("Europe/Madrid")), List.of());
            });
    Shot usual = rules.conclude(evidence, null);
    Shot stated = rules.conclude(vague, null);
    assertThat(asked).containsExactly(20.0, 165.0);
    assertThat(usual.position()).isEqualTo(new Shot.Position(PLACE, Shot.PositionSource.GPS, null));
    assertThat(stated.position())
        .isEqualTo(new Shot.Position(PLACE, Shot.PositionSource.GPS, 165.0));
  }

  /** Whatever the sources, a known time's local reading is the file's own. */
  @Test
  void aKnownTimeReadsLikeTheCamera() {
    for (int minutes = -15 * 60; minutes <= 15 * 60; minutes += 7) {
      Instant gps = LOCAL.toInstant(ZoneOffset.UTC).plus(Duration.ofMinutes(minutes));
      CaptureTime time = given().gps(gps.toString()).shot().time();
      if (time instanceof CaptureTime.Known known) {
        assertThat(known.local().toLocalDateTime()).isEqualTo(LOCAL);
      } else {
        assertThat(time).isInstanceOf(CaptureTime.Ambiguous.class);
      }
    }
  }
}

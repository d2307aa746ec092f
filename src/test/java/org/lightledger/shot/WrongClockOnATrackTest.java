package org.lightledger.shot;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.track.TrackLimits;
import org.lightledger.shot.track.TrackLog;
import org.lightledger.shot.track.TrackPlaces;
import org.lightledger.shot.track.TrackPoint;
import org.lightledger.shot.track.TrackSegment;
import org.lightledger.shot.track.Tracks;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.testing.Reference;

/** A folder of a camera without GPS whose clock is wrong, and the log of the walk. */
class WrongClockOnATrackTest {
  private static final ShotRules RULES = new ShotRules(new PlaceZones());

  /** The walk leads along the border of Slovenia, Croatia and Italy, which keep one time. */
  private static final ZoneOffset SUMMER = ZoneOffset.ofHours(2);

  private static final ZoneOffset MOSCOW_SUMMER_2009 = ZoneOffset.ofHours(4);

  /** What must be shown: every shot within 5 m and 1 s of the truth. */
  private static final double WITHIN_M = 5;

  private static Evidence evidence(
      @Nullable LocalDateTime reading, @Nullable ZoneOffset offset, @Nullable Instant gps) {
    return new Evidence(
        "JPEG",
        reading,
        offset,
        gps,
        (LocalTime) null,
        null,
        null,
        null,
        null,
        Exposure.UNKNOWN,
        null,
        1,
        6000,
        4000,
        "Maker Model",
        List.of());
  }

  private static CaptureTime.Known known(Shot shot) {
    assertThat(shot.time()).isInstanceOf(CaptureTime.Known.class);
    return (CaptureTime.Known) shot.time();
  }

  private static OwnerWord word(@Nullable String zone, String correction, TrackLog log) {
    return new OwnerWord(
        zone == null ? null : ZoneId.of(zone),
        ClockCorrection.parse(correction),
        new TrackPlaces(List.of(log), TrackLimits.standard()));
  }

  /**
   * The truth is where exiftool places shots of a right clock, at each moment of its table that
   * lies between two fixes near enough to be bridged.
   */
  @ParameterizedTest
  @CsvSource(
      value = {
        "korita-zbevnica, null, 24",
        "korita-zbevnica, Europe/Ljubljana, 24",
        "cerknicko-jezero, null, 18",
      },
      nullValues = "null")
  void anHourWrongIsPutRight(String track, @Nullable String zone, int shots) {
    TrackLog log = Tracks.ofTable(track);
    List<Map<String, String>> rows =
        Tracks.table("geotag-expected").stream().filter(r -> r.get("track").equals(track)).toList();

    assertThat(putRight(log, rows, SUMMER, zone)).isEqualTo(shots);
  }

  @Test
  void anHourWrongOnADriveIsPutRight() throws Exception {
    List<Map<String, String>> rows =
        Reference.csv("tracks/geotag-expected-exiftool12.57.csv").stream()
            .filter(r -> r.get("track").equals("jpx-Gpx-full-sample.gpx"))
            .toList();

    assertThat(
            putRight(Tracks.ofReference("jpx-Gpx-full-sample.gpx"), rows, MOSCOW_SUMMER_2009, null))
        .isEqualTo(34);
  }

  /** Concludes each shot with a clock that is an hour ahead; how many there were. */
  private static int putRight(
      TrackLog log, List<Map<String, String>> rows, ZoneOffset offset, @Nullable String zone) {
    TrackPlaces places = new TrackPlaces(List.of(log), TrackLimits.standard());
    OwnerWord word = word(zone, "-1:00:00", log);
    int shots = 0;
    for (Map<String, String> row : rows) {
      Instant instant = Instant.parse(row.get("photo_utc"));
      if (!(places.at(instant) instanceof Placement.Placed placed
          && placed.basis() instanceof Placement.Between)) {
        continue;
      }
      GeoPoint truth =
          new GeoPoint(Double.parseDouble(row.get("lat")), Double.parseDouble(row.get("lon")));
      LocalDateTime wrong = LocalDateTime.ofInstant(instant, offset).plusHours(1);

      Shot shot = RULES.concludeWith(word, evidence(wrong, null, null));

      assertThat(shot.position()).isNotNull();
      assertThat(Geodesy.distanceM(shot.position().point(), truth)).isLessThan(WITHIN_M);
      assertThat(Duration.between(known(shot).instant(), instant).abs())
          .isLessThan(Duration.ofSeconds(1));
      assertThat(known(shot).source())
          .isEqualTo(zone == null ? CaptureTime.Source.PLACE_ZONE : CaptureTime.Source.OWNER);
      assertThat(shot.clockCorrection().toText()).isEqualTo("-1:00:00");
      assertThat(shot.evidence().localTime()).isEqualTo(wrong);
      assertThat(shot.needsAttention()).isFalse();
      shots++;
    }
    return shots;
  }

  /**
   * A drive logged once a second. Every second fix is taken out of the log and is the truth for a
   * shot, so that the place found does not come from the fix it is compared with. The fixes
   * themselves jump by some metres, which is within what their dilution states: the only one more
   * than 5 m off is the receiver's second of all. One second that the log has twice is left out.
   */
  @Test
  void fixesThatTheLogLacksAreFoundWithinTheStatedError() throws Exception {
    TrackSegment drive = Tracks.ofReference("jpx-Gpx-full-sample.gpx").segments().get(0);
    List<TrackPoint> kept = new ArrayList<>();
    List<TrackPoint> truth = new ArrayList<>();
    for (int i = 0; i < drive.size(); i++) {
      boolean repeated = i > 0 && drive.point(i).instant().equals(drive.point(i - 1).instant());
      if (i % 2 == 0) {
        kept.add(drive.point(i));
      } else if (!repeated) {
        truth.add(drive.point(i));
      }
    }
    OwnerWord word =
        word(
            null,
            "+1:00:00",
            new TrackLog(List.of(TrackSegment.of(kept)), TrackLog.NotUsed.NOTHING));
    int near = 0;
    for (TrackPoint point : truth) {
      LocalDateTime wrong =
          LocalDateTime.ofInstant(point.instant(), MOSCOW_SUMMER_2009).minusHours(1);

      Shot shot = RULES.concludeWith(word, evidence(wrong, null, null));

      assertThat(shot.position()).isNotNull();
      double offM = Geodesy.distanceM(shot.position().point(), point.point());
      assertThat(offM).isLessThan(shot.position().errorM());
      assertThat(known(shot).instant()).isEqualTo(point.instant());
      near += offM < WITHIN_M ? 1 : 0;
    }
    assertThat(truth).hasSize(1372);
    assertThat(near).isEqualTo(1371);
  }

  /** Two fixes ten seconds apart in the middle of Spain, at noon of summer time. */
  private static TrackLog spanishNoon() {
    return new TrackLog(
        List.of(
            TrackSegment.of(
                List.of(
                    new TrackPoint(
                        Instant.parse("2024-06-21T10:00:00Z"),
                        new GeoPoint(40.4, -3.7),
                        660.0,
                        5.0),
                    new TrackPoint(
                        Instant.parse("2024-06-21T10:00:10Z"),
                        new GeoPoint(40.4, -3.7),
                        670.0,
                        5.0)))),
        TrackLog.NotUsed.NOTHING);
  }

  @Test
  void theHeightOfTheTrackIsKept() {
    Shot shot =
        RULES.concludeWith(
            word(null, "+0:00:00", spanishNoon()),
            evidence(LocalDateTime.parse("2024-06-21T12:00:05"), null, null));

    assertThat(shot.position())
        .isEqualTo(
            new Shot.Position(new GeoPoint(40.4, -3.7), Shot.PositionSource.TRACK, 5.0, 665.0));
    assertThat(known(shot).offset()).isEqualTo(SUMMER);
    assertThat(shot.problems())
        .extracting(Problem::kind)
        .containsExactly(Problem.Kind.DIRECTION_MISSING);
  }

  @ParameterizedTest
  @CsvSource(
      value = {
        "2024-06-21T12:00:05, +02:00, null, OFFSET_TAG",
        "2024-06-21T11:00:05, +01:00, null, OFFSET_TAG",
        "2024-06-21T12:00:05, null, 2024-06-21T10:00:04Z, GPS_TIME",
        "null, null, 2024-06-21T10:00:05Z, GPS_TIME",
      },
      nullValues = "null")
  void theFilesOwnWordOnTheTimeComesFirst(
      @Nullable LocalDateTime reading,
      @Nullable ZoneOffset offset,
      @Nullable Instant gps,
      CaptureTime.Source source) {
    Shot shot =
        RULES.concludeWith(
            word("Asia/Tokyo", "+0:00:00", spanishNoon()), evidence(reading, offset, gps));

    assertThat(known(shot).instant()).isEqualTo(Instant.parse("2024-06-21T10:00:05Z"));
    assertThat(known(shot).source()).isEqualTo(source);
    assertThat(shot.position()).isNotNull();
  }

  @Test
  void theGpsTimeOfAFileIsNotCorrected() {
    Shot shot =
        RULES.concludeWith(
            word(null, "-1:00:00", spanishNoon()),
            evidence(null, null, Instant.parse("2024-06-21T10:00:05Z")));

    assertThat(known(shot).instant()).isEqualTo(Instant.parse("2024-06-21T10:00:05Z"));
    assertThat(shot.clockCorrection()).isEqualTo(ClockCorrection.NONE);
  }

  /** The owner said that the clock kept Tokyo's time; the track knows nothing of that moment. */
  @Test
  void theOwnersZoneIsNotOverruledByTheTrack() {
    Shot shot =
        RULES.concludeWith(
            word("Asia/Tokyo", "+0:00:00", spanishNoon()),
            evidence(LocalDateTime.parse("2024-06-21T12:00:05"), null, null));

    assertThat(shot.position()).isNull();
    assertThat(known(shot).source()).isEqualTo(CaptureTime.Source.OWNER);
    assertThat(shot.problems())
        .contains(
            new Problem(
                Problem.Kind.POSITION_MISSING,
                "The file holds no usable position. The shot was taken 6 h before the track log"
                    + " begins; at most 60 s is allowed. Place the shot on the map."));
  }

  @Test
  void aShotOfAnotherMonthIsToldInDays() {
    Shot shot =
        RULES.concludeWith(
            word("Europe/Madrid", "+0:00:00", spanishNoon()),
            evidence(LocalDateTime.parse("2024-07-21T12:00:15"), null, null));

    assertThat(shot.problems())
        .extracting(Problem::message)
        .contains(
            "The file holds no usable position. The shot was taken 30 days after the track log"
                + " ends; at most 60 s is allowed. Place the shot on the map.");
  }

  @Test
  void aShotAtNoTimeOfTheTrackStaysWithoutPlaceAndTime() {
    Shot shot =
        RULES.concludeWith(
            word(null, "+0:00:00", spanishNoon()),
            evidence(LocalDateTime.parse("2024-06-21T12:30:00"), null, null));

    assertThat(shot.position()).isNull();
    assertThat(shot.time()).isInstanceOf(CaptureTime.Unknown.class);
    assertThat(shot.problems())
        .contains(
            new Problem(
                Problem.Kind.POSITION_MISSING,
                "The file holds no usable position. Nothing places the shot at its time in any"
                    + " time zone. Place the shot on the map."));
  }

  @Test
  void aShotWithoutATimeCanNotBePlaced() {
    Shot shot =
        RULES.concludeWith(word(null, "+0:00:00", spanishNoon()), evidence(null, null, null));

    assertThat(shot.position()).isNull();
    assertThat(shot.problems())
        .extracting(Problem::message)
        .contains(
            "The file holds no usable position. Without a time nothing can place the shot. Place"
                + " the shot on the map.");
  }

  /** Flown from London to Paris: noon on the clock fits both, an hour apart. */
  @Test
  void aReadingThatFitsTwoZonesIsNotGuessed() {
    TrackLog journey =
        new TrackLog(
            List.of(
                TrackSegment.of(
                    List.of(
                        new TrackPoint(
                            Instant.parse("2024-06-21T10:00:00Z"),
                            new GeoPoint(48.85, 2.35),
                            null,
                            null))),
                TrackSegment.of(
                    List.of(
                        new TrackPoint(
                            Instant.parse("2024-06-21T11:00:00Z"),
                            new GeoPoint(51.5, -0.12),
                            null,
                            null)))),
            TrackLog.NotUsed.NOTHING);
    Evidence noon = evidence(LocalDateTime.parse("2024-06-21T12:00:00"), null, null);

    Shot open = RULES.concludeWith(word(null, "+0:00:00", journey), noon);
    Shot told = RULES.concludeWith(word("Europe/Paris", "+0:00:00", journey), noon);

    assertThat(open.position()).isNull();
    assertThat(open.problems())
        .extracting(Problem::message)
        .contains(
            "The file holds no usable position. Its clock reading fits 2 moments in different time"
                + " zones; give the zone. Place the shot on the map.");
    assertThat(told.position()).isNotNull();
    assertThat(told.position().point()).isEqualTo(new GeoPoint(48.85, 2.35));
  }

  /** GPS time that equals the clock in Spain leaves the time ambiguous, so it places nothing. */
  @Test
  void aTimeInDoubtPlacesNothing() {
    Shot shot =
        RULES.concludeWith(
            word(null, "+0:00:00", spanishNoon()),
            evidence(
                LocalDateTime.parse("2024-06-21T10:00:05"),
                null,
                Instant.parse("2024-06-21T10:00:05Z")));

    assertThat(shot.position()).isNull();
    assertThat(shot.problems())
        .extracting(Problem::message)
        .contains(
            "The file holds no usable position. At the place of its time the time itself is in"
                + " doubt. Place the shot on the map.");
  }

  @Test
  void aRefusedPositionIsReplacedAndNoLongerWaitsForTheOwner() {
    Evidence bare = evidence(LocalDateTime.parse("2024-06-21T12:00:05"), null, null);
    Evidence nullIsland =
        new Evidence(
            bare.format(),
            bare.localTime(),
            null,
            null,
            null,
            new GeoPoint(0, 0),
            null,
            null,
            null,
            Exposure.UNKNOWN,
            null,
            1,
            null,
            null,
            null,
            List.of());

    Shot shot = RULES.concludeWith(word(null, "+0:00:00", spanishNoon()), nullIsland);

    assertThat(shot.position()).isNotNull();
    assertThat(shot.position().source()).isEqualTo(Shot.PositionSource.TRACK);
    assertThat(shot.needsAttention()).isFalse();
    assertThat(shot.problems())
        .extracting(Problem::message)
        .anyMatch(message -> message.endsWith(" The shot is placed by its time."));
  }

  @Test
  void aPositionOfItsOwnIsNotReplaced() {
    Evidence bare = evidence(LocalDateTime.parse("2024-06-21T12:00:05"), null, null);
    GeoPoint own = new GeoPoint(40.5, -3.7);
    Evidence placed =
        new Evidence(
            bare.format(),
            bare.localTime(),
            null,
            null,
            null,
            own,
            700.0,
            4.0,
            null,
            Exposure.UNKNOWN,
            null,
            1,
            null,
            null,
            null,
            List.of());

    Shot shot = RULES.concludeWith(word(null, "-0:00:05", spanishNoon()), placed);

    assertThat(shot.position())
        .isEqualTo(new Shot.Position(own, Shot.PositionSource.GPS, 4.0, 700.0));
    assertThat(known(shot).local().toLocalTime()).isEqualTo(LocalTime.NOON);
  }
}

package org.lightledger.shot.track;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Placement;
import org.lightledger.shot.Placement.Reason;
import org.lightledger.shot.Shot;
import org.lightledger.testing.Reference;

class TrackPlacesTest {
  /** What exiftool does unless told otherwise: GeoMaxIntSecs and GeoMaxExtSecs of 1800 s. */
  private static final TrackLimits LIKE_EXIFTOOL =
      new TrackLimits(
          Duration.ofSeconds(1800),
          Double.POSITIVE_INFINITY,
          Duration.ofSeconds(1800),
          Double.POSITIVE_INFINITY);

  /** The expected table is written to 13 decimals of a degree; this is far more than its error. */
  private static final double TABLE_M = 1e-3;

  /** The expected table is written to fractions of a millimetre. */
  private static final double TABLE_ALTITUDE_M = 1e-3;

  private static Placement.Placed placed(Placement placement) {
    assertThat(placement).isInstanceOf(Placement.Placed.class);
    return (Placement.Placed) placement;
  }

  private static Placement.Refused refused(Placement placement) {
    assertThat(placement).isInstanceOf(Placement.Refused.class);
    return (Placement.Refused) placement;
  }

  private static TrackPlaces places(TrackLog... logs) {
    return new TrackPlaces(List.of(logs), TrackLimits.standard());
  }

  @ParameterizedTest
  @CsvSource({"korita-zbevnica", "cerknicko-jezero"})
  void withTheLimitsOfExiftoolEveryRowIsAsExiftoolHasIt(String track) {
    List<Map<String, String>> rows =
        Tracks.table("geotag-expected").stream().filter(r -> r.get("track").equals(track)).toList();

    assertThat(rows).hasSize(39);
    assertAsExiftool(Tracks.ofTable(track), rows);
  }

  @ParameterizedTest
  @CsvSource({"gpxpy-korita-zbevnica.gpx", "gpxpy-cerknicko-jezero.gpx", "jpx-Gpx-full-sample.gpx"})
  void allReferenceRowsFromTheFilesThemselves(String file) throws Exception {
    List<Map<String, String>> rows =
        Reference.csv("tracks/geotag-expected-exiftool12.57.csv").stream()
            .filter(r -> r.get("track").equals(file))
            .toList();

    assertThat(rows).hasSize(39);
    assertAsExiftool(Tracks.ofReference(file), rows);
  }

  private static void assertAsExiftool(TrackLog log, List<Map<String, String>> rows) {
    TrackPlaces places = new TrackPlaces(List.of(log), LIKE_EXIFTOOL);
    assertThat(rows)
        .allSatisfy(
            row -> {
              Placement placement = places.at(Instant.parse(row.get("photo_utc")));
              if (row.get("lat").isEmpty()) {
                refused(placement);
                return;
              }
              Shot.Position position = placed(placement).position();
              GeoPoint expected =
                  new GeoPoint(
                      Double.parseDouble(row.get("lat")), Double.parseDouble(row.get("lon")));
              assertThat(Geodesy.distanceM(position.point(), expected))
                  .isLessThan(straightLineM(places, placed(placement).basis()) + TABLE_M);
              assertThat(position.altitudeM())
                  .isCloseTo(Double.parseDouble(row.get("alt_m")), within(TABLE_ALTITUDE_M));
            });
  }

  /**
   * How far the geodesic and exiftool's straight line in latitude and longitude part in the middle
   * of a gap. On a sphere of radius R, with east and north the two parts of the way, the geodesic
   * obeys latitude'' = -sin cos (longitude')^2 and longitude'' = 2 tan latitude' longitude', and
   * the arrow of a bow is an eighth of its second derivative; a twentieth more for terms beyond.
   */
  private static double straightLineM(TrackPlaces places, Placement.Basis basis) {
    if (!(basis instanceof Placement.Between gap)) {
      return 0;
    }
    GeoPoint from = placed(places.at(gap.before())).position().point();
    GeoPoint to = placed(places.at(gap.after())).position().point();
    double wayM = Geodesy.distanceM(from, to);
    double bearing = Math.toRadians(Geodesy.bearing(from, to).trueDeg());
    double eastM = wayM * Math.sin(bearing);
    double northM = wayM * Math.cos(bearing);
    double perRadius = Math.tan(Math.toRadians(from.latitudeDeg())) / 6.37e6;
    return 1.05 * perRadius * Math.abs(eastM) * Math.hypot(eastM, 2 * northM) / 8;
  }

  /** Inside our narrower limits we say the same as exiftool, outside of them nothing. */
  @Test
  void withOurOwnLimitsARowIsTheSameOrRefused() {
    int same = 0;
    int refused = 0;
    for (String track : List.of("korita-zbevnica", "cerknicko-jezero")) {
      TrackPlaces ours = places(Tracks.ofTable(track));
      TrackPlaces theirs = new TrackPlaces(List.of(Tracks.ofTable(track)), LIKE_EXIFTOOL);
      for (Map<String, String> row : Tracks.table("geotag-expected")) {
        if (row.get("track").equals(track)) {
          Instant instant = Instant.parse(row.get("photo_utc"));
          if (ours.at(instant) instanceof Placement.Placed found
              && found.basis() instanceof Placement.Between) {
            assertThat(found).isEqualTo(theirs.at(instant));
            same++;
          } else if (ours.at(instant) instanceof Placement.Refused) {
            refused++;
          }
        }
      }
    }
    // The other eight rows of 78 lie at most a minute outside, or in a gap, and stand on its end.
    assertThat(List.of(same, refused)).containsExactly(42, 28);
  }

  @Test
  void halfWayInTimeIsHalfWayOnTheGround() {
    TrackPoint from =
        new TrackPoint(
            Instant.parse("2024-06-01T10:00:00Z"), new GeoPoint(60, 179.999), 100.0, 4.0);
    TrackPoint to =
        new TrackPoint(
            Instant.parse("2024-06-01T10:01:00Z"), new GeoPoint(60, -179.999), 110.0, 8.0);

    Placement.Placed middle =
        placed(places(Tracks.of(from, to)).at(Instant.parse("2024-06-01T10:00:30Z")));

    double wayM = Geodesy.distanceM(from.point(), to.point());
    assertThat(Geodesy.distanceM(from.point(), middle.position().point()))
        .isCloseTo(wayM / 2, within(1e-6));
    assertThat(Geodesy.distanceM(to.point(), middle.position().point()))
        .isCloseTo(wayM / 2, within(1e-6));
    assertThat(middle.position().altitudeM()).isCloseTo(105.0, within(1e-9));
    assertThat(middle.position().errorM()).isCloseTo(Math.hypot(6, wayM / 2), within(1e-6));
    assertThat(middle.position().source()).isEqualTo(Shot.PositionSource.TRACK);
    assertThat(middle.basis()).isEqualTo(new Placement.Between(from.instant(), to.instant()));
  }

  @ParameterizedTest
  @CsvSource({
    "2024-06-01T09:58:59Z, TOO_EARLY",
    "2024-06-01T10:01:00.001Z, GAP_TOO_LONG",
    "2024-06-01T10:11:30Z, GAP_TOO_WIDE",
    "2024-06-01T10:14:00.001Z, TOO_LATE",
  })
  void beyondTheLimitsNothingIsSaid(Instant instant, Reason reason) {
    assertThat(refused(gappy().at(instant)).reason()).isEqualTo(reason);
  }

  @ParameterizedTest
  @CsvSource({
    "2024-06-01T09:59:00Z, 2024-06-01T10:00:00Z",
    "2024-06-01T10:01:00Z, 2024-06-01T10:00:00Z",
    "2024-06-01T10:09:00Z, 2024-06-01T10:10:00Z",
    "2024-06-01T10:11:00Z, 2024-06-01T10:10:00Z",
    "2024-06-01T10:14:00Z, 2024-06-01T10:13:00Z",
  })
  void aMinuteBeyondAFixTheFixStillStands(Instant instant, Instant fix) {
    Placement.Placed found = placed(gappy().at(instant));

    assertThat(found.basis()).isEqualTo(new Placement.Nearest(fix));
    assertThat(found.position().errorM())
        .isCloseTo(
            Math.hypot(TrackLane.UNSTATED_ERROR_M, 60 * TrackLane.WALKING_M_PER_S), within(1e-9));
  }

  /** A gap of ten minutes, then one of three minutes and 1.1 km. */
  private static TrackPlaces gappy() {
    return places(
        Tracks.of(Tracks.point("2024-06-01T10:00:00Z", 45, 7)),
        Tracks.of(
            Tracks.point("2024-06-01T10:10:00Z", 45, 7),
            Tracks.point("2024-06-01T10:13:00Z", 45.01, 7)));
  }

  @Test
  void theGapsThatAreBridgedEndAtTheLimits() {
    TrackPlaces places =
        places(
            Tracks.of(Tracks.point("2024-06-01T10:00:00Z", 45, 7)),
            Tracks.of(Tracks.point("2024-06-01T10:05:00Z", 45, 7)));

    assertThat(placed(places.at(Instant.parse("2024-06-01T10:02:30Z"))).basis())
        .isInstanceOf(Placement.Between.class);
  }

  @Test
  void refusalsTeach() {
    assertThat(refused(gappy().at(Instant.parse("2024-06-01T09:00:00Z"))).message())
        .isEqualTo(
            "The shot was taken 60 min before the track log begins; at most 60 s is allowed.");
    assertThat(refused(gappy().at(Instant.parse("2024-06-01T10:05:00Z"))).message())
        .isEqualTo(
            "The shot was taken 5 min from the nearest point, in a gap of 10 min of the track log"
                + " (up to 5 min is bridged); at most 60 s is allowed.");
    assertThat(refused(places().at(Instant.EPOCH)))
        .isEqualTo(
            new Placement.Refused(
                Reason.NOTHING_KNOWN, "The track log has no point with both a time and a place."));
  }

  @Test
  void fixesOfOneTimeAreAnErrorOfEachOther() {
    TrackPlaces near =
        places(
            Tracks.of(
                Tracks.point("2024-06-01T10:00:00Z", 45, 7),
                Tracks.point("2024-06-01T10:00:00Z", 45.0001, 7)));
    TrackPlaces far =
        places(
            Tracks.of(
                Tracks.point("2024-06-01T10:00:00Z", 45, 7),
                Tracks.point("2024-06-01T10:00:00Z", 45.1, 7)));
    Instant instant = Instant.parse("2024-06-01T10:00:00Z");

    assertThat(placed(near.at(instant)).position().errorM())
        .isCloseTo(Math.hypot(TrackLane.UNSTATED_ERROR_M, 11.11), within(0.01));
    assertThat(refused(far.at(instant)).reason()).isEqualTo(Reason.DISAGREEMENT);
  }

  @Test
  void ofTwoLogsTheBetterIsUsed() {
    TrackLog coarse =
        Tracks.of(
            Tracks.point("2024-06-01T10:00:00Z", 45, 7),
            Tracks.point("2024-06-01T10:02:00Z", 45.0005, 7));
    TrackLog fine =
        Tracks.of(
            Tracks.point("2024-06-01T10:00:59Z", 45.0003, 7),
            Tracks.point("2024-06-01T10:01:01Z", 45.0003, 7));
    Instant instant = Instant.parse("2024-06-01T10:01:00Z");

    Placement.Placed found = placed(places(coarse, fine).at(instant));

    assertThat(found.position().point().latitudeDeg()).isCloseTo(45.0003, within(1e-9));
    assertThat(found.position().errorM()).isCloseTo(Math.hypot(10, 5.56), within(0.01));
    assertThat(places(fine, coarse).at(instant)).isEqualTo(found);
  }

  @Test
  void logsThatContradictEachOtherPlaceNothing() {
    TrackLog own =
        Tracks.of(
            Tracks.point("2024-06-01T10:00:00Z", 45, 7),
            Tracks.point("2024-06-01T10:02:00Z", 45, 7));
    TrackLog friend =
        Tracks.of(
            Tracks.point("2024-06-01T10:00:30Z", 45.001, 7),
            Tracks.point("2024-06-01T10:01:30Z", 45.001, 7));

    assertThat(refused(places(own, friend).at(Instant.parse("2024-06-01T10:01:00Z"))).message())
        .isEqualTo(
            "The track logs place the shot 111 m apart; at most 50 m is allowed. Leave out the one"
                + " that the photographer did not carry.");
  }

  @Test
  void theEndOfOneLogDoesNotContradictTheMiddleOfAnother() {
    TrackLog ends = Tracks.of(Tracks.point("2024-06-01T10:00:30Z", 45.001, 7));
    TrackLog goesOn =
        Tracks.of(
            Tracks.point("2024-06-01T10:00:00Z", 45, 7),
            Tracks.point("2024-06-01T10:02:00Z", 45, 7));

    assertThat(
            placed(places(ends, goesOn).at(Instant.parse("2024-06-01T10:01:00Z")))
                .position()
                .point())
        .isEqualTo(new GeoPoint(45, 7));
  }

  @Test
  void limitsAreNoNegativeNumbers() {
    assertThatThrownBy(() -> new TrackLimits(Duration.ofSeconds(-1), 1, Duration.ZERO, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new TrackLimits(Duration.ZERO, Double.NaN, Duration.ZERO, 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new TrackLimits(Duration.ZERO, 1, Duration.ZERO, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** However a log is cut into segments and files, it says the same. */
  @Property(tries = 200)
  void cuttingALogChangesNothing(
      @ForAll List<@IntRange(min = 1, max = 400) Integer> secondsBetween,
      @ForAll @IntRange(min = 1, max = 7) int cut,
      @ForAll @DoubleRange(min = 0, max = 1) double part) {
    List<TrackPoint> points = new ArrayList<>();
    Instant time = Instant.parse("2024-06-01T10:00:00Z");
    for (int seconds : secondsBetween) {
      time = time.plusSeconds(seconds);
      points.add(
          new TrackPoint(
              time, new GeoPoint(45 + points.size() * 1e-4, 7), (double) points.size(), null));
    }
    List<TrackLog> pieces = new ArrayList<>();
    for (int i = 0; i < points.size(); i += cut) {
      pieces.add(
          Tracks.of(
              points.subList(i, Math.min(points.size(), i + cut)).toArray(new TrackPoint[0])));
    }
    TrackPlaces whole =
        points.isEmpty() ? places() : places(Tracks.of(points.toArray(new TrackPoint[0])));
    Instant asked =
        Instant.parse("2024-06-01T09:59:00Z")
            .plusMillis(
                (long)
                    (part
                        * Duration.between(Instant.parse("2024-06-01T09:58:00Z"), time)
                            .toMillis()));

    assertThat(new TrackPlaces(pieces, TrackLimits.standard()).at(asked))
        .isEqualTo(whole.at(asked));
  }
}

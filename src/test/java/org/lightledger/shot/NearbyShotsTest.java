package org.lightledger.shot;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.NearbyShots.PlacedShot;

class NearbyShotsTest {
  private static final GeoPoint SPOT = new GeoPoint(45.5, 14.0);

  private static PlacedShot shot(String time, double northM, Double errorM) {
    return new PlacedShot(
        Instant.parse("2024-06-01T" + time + "Z"),
        new Shot.Position(
            Geodesy.destination(SPOT, new Bearing(0), northM),
            Shot.PositionSource.GPS,
            errorM,
            300.0));
  }

  private static Placement at(String time, PlacedShot... shots) {
    return new NearbyShots(List.of(shots), NearbyShots.Limits.standard())
        .at(Instant.parse("2024-06-01T" + time + "Z"));
  }

  private static Placement.Placed placed(Placement placement) {
    assertThat(placement).isInstanceOf(Placement.Placed.class);
    return (Placement.Placed) placement;
  }

  private static Placement.Refused refused(Placement placement) {
    assertThat(placement).isInstanceOf(Placement.Refused.class);
    return (Placement.Refused) placement;
  }

  @Test
  void betweenTwoShotsThatAgreeTheNearerIsTaken() {
    Placement.Placed found =
        placed(at("10:01:00", shot("10:00:00", 0, 4.0), shot("10:04:00", 3, 5.0)));

    assertThat(found.position().point()).isEqualTo(SPOT);
    assertThat(found.position().source()).isEqualTo(Shot.PositionSource.NEARBY_SHOT);
    assertThat(found.position().errorM()).isCloseTo(Math.hypot(4, 3), within(1e-6));
    assertThat(found.position().altitudeM()).isEqualTo(300.0);
    assertThat(found.basis())
        .isEqualTo(
            new Placement.Between(
                Instant.parse("2024-06-01T10:00:00Z"), Instant.parse("2024-06-01T10:04:00Z")));
  }

  /** 0.2 m in a second for a minute are 12 m. */
  @ParameterizedTest
  @CsvSource({"09:59:00", "10:01:00"})
  void oneSideIsEnoughButLessSure(String time) {
    Placement.Placed found = placed(at(time, shot("10:00:00", 0, 5.0)));

    assertThat(found.position().point()).isEqualTo(SPOT);
    assertThat(found.position().errorM()).isCloseTo(13, within(1e-9));
    assertThat(found.basis())
        .isEqualTo(new Placement.Nearest(Instant.parse("2024-06-01T10:00:00Z")));
  }

  @Test
  void aShotWithoutAStatedErrorHasTheUsualOne() {
    assertThat(placed(at("10:00:00", shot("10:00:00", 0, null))).position().errorM())
        .isEqualTo(ShotRules.USUAL_POSITION_ERROR_M);
  }

  @Test
  void betweenShotsThatDisagreeNothingIsSaid() {
    Placement.Refused refused =
        refused(at("10:00:01", shot("10:00:00", 0, 4.0), shot("10:04:00", 26, 4.0)));

    assertThat(refused.reason()).isEqualTo(Placement.Reason.DISAGREEMENT);
    assertThat(refused.message())
        .isEqualTo(
            "The shots before and after were taken 26 m apart; at most 25 m are taken for one"
                + " place.");
  }

  @Test
  void shotsOfOneMomentMustAgreeToo() {
    assertThat(
            refused(at("10:00:01", shot("10:00:00", 0, 4.0), shot("10:00:00", 1000, 4.0))).reason())
        .isEqualTo(Placement.Reason.DISAGREEMENT);
  }

  @Test
  void aShotFurtherAwayInTimeDoesNotMatter() {
    assertThat(
            placed(
                    at(
                        "10:01:00",
                        shot("09:58:00", 900, 4.0),
                        shot("10:00:00", 0, 4.0),
                        shot("10:06:01", 500, 4.0)))
                .basis())
        .isInstanceOf(Placement.Nearest.class);
  }

  @ParameterizedTest
  @CsvSource({
    "09:54:59, TOO_EARLY",
    "10:05:01, GAP_TOO_LONG",
    "11:05:01, TOO_LATE",
  })
  void beyondFiveMinutesNothingIsSaid(String time, Placement.Reason reason) {
    Placement.Refused refused =
        refused(at(time, shot("10:00:00", 0, 4.0), shot("11:00:00", 0, 4.0)));

    assertThat(refused.reason()).isEqualTo(reason);
    assertThat(refused.message())
        .isEqualTo("No other shot with a place was taken within 300 s of this one.");
  }

  @ParameterizedTest
  @CsvSource({"09:55:00", "10:05:00", "10:55:00", "11:05:00"})
  void fiveMinutesAreAllowed(String time) {
    placed(at(time, shot("10:00:00", 0, 4.0), shot("11:00:00", 0, 4.0)));
  }

  @Test
  void aShotPlacedByOthersIsNoWitness() {
    PlacedShot second =
        new PlacedShot(
            Instant.parse("2024-06-01T10:00:00Z"),
            new Shot.Position(SPOT, Shot.PositionSource.NEARBY_SHOT, 10.0));

    assertThat(refused(at("10:00:00", second)).reason()).isEqualTo(Placement.Reason.NOTHING_KNOWN);
  }

  @Test
  void limitsAreNoNegativeNumbers() {
    assertThatThrownBy(() -> new NearbyShots.Limits(Duration.ofSeconds(-1), 1))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new NearbyShots.Limits(Duration.ZERO, Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
  }
}

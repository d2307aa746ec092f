package org.lightledger.session.drive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;

/** Which minutes win, and what is said of them. */
class DrivesTest {
  private static final Place MILL = new Place(1, new GeoPoint(41.93, -6.42));
  private static final Place BRIDGE = new Place(2, new GeoPoint(41.94, -6.42));
  private static final Place HILL = new Place(3, new GeoPoint(42.13, -6.42));

  @Test
  void withoutRoadsADriveIsEstimatedFromTheDistance() {
    Drives drives = new Drives(Map.of(), List.of());

    Drive near = drives.between(MILL, BRIDGE);
    Drive far = drives.between(MILL, HILL);

    // 0.01 degrees of latitude are 1.11 km: 1.55 km of road at 30 km/h are 3.1 minutes.
    assertThat(near.minutes()).isEqualTo(4);
    assertThat(near.source()).isEqualTo(DriveSource.ESTIMATED);
    assertThat(near.reason()).contains("1.6 km").contains("no map with roads holds it");
    // 0.2 degrees are 22.21 km: 31.1 km of road, 10 minutes for 5 km and 26.1 for the rest.
    assertThat(far.minutes()).isEqualTo(37);
    assertThat(drives.between(HILL, MILL).minutes()).isEqualTo(far.minutes());
  }

  @Test
  void theOwnersMinutesWinForTheWayThereAndElseForTheWayBack() {
    Drives drives =
        new Drives(
            Map.of(new DriveTable.Leg(1, 2), 9, new DriveTable.Leg(2, 3), 0),
            List.of((from, to) -> new Roads.Route.Found(61, 800, 3, 12)));

    assertThat(drives.between(MILL, BRIDGE))
        .isEqualTo(new Drive(9, DriveSource.OWNER, "Your own minutes."));
    assertThat(drives.between(BRIDGE, MILL))
        .isEqualTo(new Drive(9, DriveSource.OWNER, "Your own minutes for the way back."));
    assertThat(drives.between(HILL, MILL).source()).isEqualTo(DriveSource.ROUTED);
    assertThat(drives.between(HILL, MILL).minutes()).isEqualTo(2);
  }

  @Test
  void aMapThatDoesNotHoldAPlaceLeavesItToTheNext() {
    Roads lost = (from, to) -> new Roads.Route.None("the start lies 400 m from any road");
    Roads found = (from, to) -> new Roads.Route.Found(300, 2000, 0, 0);

    assertThat(new Drives(Map.of(), List.of(lost, found)).between(MILL, HILL).minutes())
        .isEqualTo(5);
    assertThat(new Drives(Map.of(), List.of(lost)).between(MILL, HILL).reason())
        .endsWith("the start lies 400 m from any road.");
  }

  @Test
  void withinADriveAreTheNearestFirst() {
    Drives drives = new Drives(Map.of(new DriveTable.Leg(1, 3), 3), List.of());

    assertThat(drives.within(4, MILL, List.of(BRIDGE, MILL, HILL)))
        .extracting(reached -> reached.place().spotId())
        .containsExactly(1L, 3L, 2L);
    assertThat(drives.within(3, MILL, List.of(BRIDGE, HILL)))
        .extracting(reached -> reached.place().spotId())
        .containsExactly(3L);
    assertThatThrownBy(() -> drives.within(-1, MILL, List.of()))
        .hasMessageContaining("expected 0 minutes or more, found -1");
  }

  @Test
  void aTableHoldsEveryOrderedPairAndTheWayFromTheMeetingSpot() {
    DriveTable table = new Drives(Map.of(), List.of()).table(List.of(MILL, BRIDGE, HILL), BRIDGE);

    assertThat(table.between()).hasSize(6);
    assertThat(table.fromMeeting(2).orElseThrow().minutes()).isZero();
    assertThat(table.fromMeeting(1)).isEqualTo(table.between(2, 1));
    assertThat(table.between(1, 1)).isEmpty();
  }
}

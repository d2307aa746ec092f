package org.lightledger.store;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * What shots taken near each other may belong to, read once in a transaction and then kept up in
 * memory: a spot that a shot has joined stands at its new mean at once, but is written at the end.
 * Good as long as nothing else changes spots or anchors; {@link #settle} before anything does. Not
 * safe for several threads.
 */
public final class Surroundings {
  /**
   * So many cells to a degree, each read at once, 1.7 km from north to south; own choice. A power
   * of two, so that the sides of a cell are exact.
   */
  private static final double CELLS_PER_DEG = 64;

  /** A question that touches more cells is put to the ledger itself; own choice. */
  private static final int MOST_CELLS = 16;

  private final LedgerSession session;
  private final Map<Cell, List<Standing>> cells = new HashMap<>();
  private final Map<Long, Standing> spots = new HashMap<>();
  private final Set<Long> anchors = new HashSet<>();
  private final Set<Cell> read = new HashSet<>();
  private final Set<Long> moved = new LinkedHashSet<>();

  private record Cell(int north, int east) {
    static Cell of(GeoPoint place) {
      return new Cell(row(place.latitudeDeg()), row(place.longitudeDeg()));
    }

    static int row(double deg) {
      return (int) Math.floor(deg * CELLS_PER_DEG);
    }
  }

  /** A spot at its middle, or one of the anchors of a spot or a dropped spot. */
  private record Standing(Home home, GeoPoint place) {}

  Surroundings(LedgerSession session) {
    this.session = session;
  }

  /**
   * Everything that a shot taken at a place may belong to, as {@link GroupingStore#homesWithin}.
   *
   * @param place where the shot was taken
   * @param maxM how far away it may be, metres, 0 or more
   * @return each spot and each dropped spot once, nearest first, of equally near ones the smaller
   *     number
   */
  public List<Home> homesWithin(GeoPoint place, double maxM) {
    List<Home> found = new ArrayList<>();
    for (SearchBox box : SearchBox.around(place, maxM)) {
      int south = Cell.row(box.southDeg());
      int north = Cell.row(box.northDeg());
      int west = Cell.row(box.westDeg());
      int east = Cell.row(box.eastDeg());
      if ((north - south + 1L) * (east - west + 1L) > MOST_CELLS) {
        settle();
        return session.grouping().homesWithin(place, maxM);
      }
      for (int row = south; row <= north; row++) {
        for (int column = west; column <= east; column++) {
          Cell cell = new Cell(row, column);
          if (read.add(cell)) {
            read(cell);
          }
        }
      }
      for (int row = south; row <= north; row++) {
        for (int column = west; column <= east; column++) {
          for (Standing standing : cells.getOrDefault(new Cell(row, column), List.of())) {
            if (box.holds(standing.place())) {
              found.add(standing.home().at(Geodesy.distanceM(place, standing.place())));
            }
          }
        }
      }
    }
    return GroupingStore.nearestOfEach(found, maxM);
  }

  private void read(Cell cell) {
    SearchBox box =
        new SearchBox(
            cell.east() / CELLS_PER_DEG,
            (cell.east() + 1) / CELLS_PER_DEG,
            cell.north() / CELLS_PER_DEG,
            (cell.north() + 1) / CELLS_PER_DEG);
    session
        .grouping()
        .eachMeasuredSpot(
            box,
            (spotId, place) -> {
              if (!spots.containsKey(spotId)) {
                stand(spotId, place);
              }
            });
    session
        .anchors()
        .each(
            box,
            (anchorId, home, place) -> {
              if (anchors.add(anchorId)) {
                put(new Standing(home, place));
              }
            });
  }

  private void stand(long spotId, GeoPoint place) {
    Standing standing = new Standing(new Home(spotId, null, 0), place);
    spots.put(spotId, standing);
    put(standing);
  }

  private void put(Standing standing) {
    cells.computeIfAbsent(Cell.of(standing.place()), cell -> new ArrayList<>(2)).add(standing);
  }

  /**
   * A spot was made.
   *
   * @param spotId the ledger's number of the spot
   * @param place where it stands
   */
  public void made(long spotId, GeoPoint place) {
    stand(spotId, place);
  }

  /**
   * A shot with a place has become a shot of a spot.
   *
   * @param spotId the ledger's number of the spot
   */
  public void joined(long spotId) {
    moved.add(spotId);
    Standing before = spots.get(spotId);
    if (before != null) {
      session
          .grouping()
          .meanOfShots(spotId)
          .filter(mean -> !mean.equals(before.place()))
          .ifPresent(
              mean -> {
                cells.getOrDefault(Cell.of(before.place()), List.of()).remove(before);
                stand(spotId, mean);
              });
    }
  }

  /** Writes where the spots stand that shots have joined, and forgets everything. */
  public void settle() {
    moved.forEach(session.grouping()::settle);
    moved.clear();
    cells.clear();
    spots.clear();
    anchors.clear();
    read.clear();
  }
}

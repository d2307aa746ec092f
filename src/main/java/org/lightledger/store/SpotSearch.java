package org.lightledger.store;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.spot.Spot;

/** Finds spots near a place, by the spatial index. */
public final class SpotSearch {
  /**
   * The spatial index rounds outward, so that no place in the box is missed. It has to come first
   * in a CROSS JOIN, which keeps the order of its tables (sqlite.org/optoverview.html#crossjoin).
   */
  private static final String IN_BOX =
      " r.minx <= ? AND r.maxx >= ? AND r.miny <= ? AND r.maxy >= ?";

  private final LedgerSession session;
  private final SpotRows rows = new SpotRows();

  SpotSearch(LedgerSession session) {
    this.session = session;
  }

  /**
   * The spots within a distance.
   *
   * @param centre the place to measure from
   * @param radiusM metres, 0 or more
   * @return nearest first
   */
  public List<NearSpot> within(GeoPoint centre, double radiusM) {
    List<NearSpot> found = new ArrayList<>();
    for (SearchBox box : SearchBox.around(centre, radiusM)) {
      List<Spot> spots =
          rows.join(
              inBox(
                  "SELECT "
                      + SpotRows.SPOT
                      + " FROM rtree_spots_geom r CROSS JOIN spots s ON s.id = r.id WHERE"
                      + IN_BOX
                      + " ORDER BY s.id",
                  box),
              inBox(
                  "SELECT "
                      + SpotRows.FACING
                      + " FROM rtree_spots_geom r CROSS JOIN facings f ON f.spot_id = r.id WHERE"
                      + IN_BOX
                      + SpotStore.FACING_ORDER,
                  box));
      for (Spot spot : spots) {
        double distanceM = Geodesy.distanceM(centre, spot.position());
        if (distanceM <= radiusM) {
          found.add(new NearSpot(spot, distanceM));
        }
      }
    }
    found.sort(
        Comparator.comparingDouble(NearSpot::distanceM)
            .thenComparingLong(near -> near.spot().id()));
    return found;
  }

  /**
   * The nearest spot.
   *
   * @param place the place to measure from
   * @param maxM how far it may be, metres, 0 or more
   * @return the nearest, of two equally near the one with the smaller number; or nothing
   */
  public Optional<NearSpot> nearest(GeoPoint place, double maxM) {
    Nearest nearest = new Nearest(place, maxM);
    for (SearchBox box : SearchBox.around(place, maxM)) {
      inBox(
              "SELECT s.id, s.geom FROM rtree_spots_geom r CROSS JOIN spots s ON s.id = r.id WHERE"
                  + IN_BOX
                  + " ORDER BY s.id",
              box)
          .each(nearest);
    }
    return nearest.found
        ? session.spots().find(nearest.id).map(spot -> new NearSpot(spot, nearest.distanceM))
        : Optional.empty();
  }

  private static final class Nearest implements Call.RowVisitor {
    private final GeoPoint place;
    private boolean found;
    private double distanceM;
    private long id;

    Nearest(GeoPoint place, double maxM) {
      this.place = place;
      this.distanceM = maxM;
    }

    @Override
    public void visit(Row row) throws SQLException {
      long spotId = row.integer();
      double awayM = Geodesy.distanceM(place, GeoPackageGeometry.readPoint(row.blob()));
      if (awayM < distanceM || (awayM == distanceM && (!found || spotId < id))) {
        found = true;
        distanceM = awayM;
        id = spotId;
      }
    }
  }

  private Call inBox(String sql, SearchBox box) {
    return session
        .call(sql)
        .real("longitude in degrees", box.eastDeg())
        .real("longitude in degrees", box.westDeg())
        .real("latitude in degrees", box.northDeg())
        .real("latitude in degrees", box.southDeg());
  }
}

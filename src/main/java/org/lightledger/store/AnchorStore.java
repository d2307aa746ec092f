package org.lightledger.store;

import java.util.List;
import org.lightledger.geo.GeoPoint;

/** The places that are tied to spots: from where a spot with any is measured. */
public final class AnchorStore {
  private final LedgerSession session;

  AnchorStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * An anchor of a spot.
   *
   * @param id the ledger's number of it
   * @param place the place that is tied to the spot
   */
  public record Anchor(long id, GeoPoint place) {}

  /** Looks at an anchor; the home's distance is 0. */
  @FunctionalInterface
  interface Visitor {
    void visit(long anchorId, Home home, GeoPoint place);
  }

  /** The anchors in a box. */
  void each(SearchBox box, Visitor visitor) {
    session
        .call(
            "SELECT id, spot_id, dropped_spot_id, latitude_deg, longitude_deg FROM anchors"
                + " WHERE latitude_deg >= ? AND latitude_deg <= ?"
                + " AND longitude_deg >= ? AND longitude_deg <= ?")
        .real("latitude in degrees", box.southDeg())
        .real("latitude in degrees", box.northDeg())
        .real("longitude in degrees", box.westDeg())
        .real("longitude in degrees", box.eastDeg())
        .each(
            row ->
                visitor.visit(
                    row.integer(),
                    new Home(row.integerOrNull(), row.integerOrNull(), 0),
                    new GeoPoint(row.real(), row.real())));
  }

  /**
   * The anchors of a spot.
   *
   * @param spotId the ledger's number of the spot
   * @return in the order in which they came
   */
  public List<Anchor> ofSpot(long spotId) {
    return session
        .call("SELECT id, latitude_deg, longitude_deg FROM anchors WHERE spot_id = ? ORDER BY id")
        .integer(spotId)
        .list(row -> new Anchor(row.integer(), new GeoPoint(row.real(), row.real())));
  }

  /**
   * Ties a place to a spot, unless it is tied to it already.
   *
   * @param spotId the ledger's number of the spot
   * @param place the place
   */
  public void add(long spotId, GeoPoint place) {
    if (ofSpot(spotId).stream().anyMatch(anchor -> anchor.place().equals(place))) {
      return;
    }
    session.changing(LedgerSession.Content.ANCHORS);
    session
        .call("INSERT INTO anchors (spot_id, latitude_deg, longitude_deg) VALUES (?, ?, ?)")
        .integer(spotId)
        .real("latitude in degrees", place.latitudeDeg())
        .real("longitude in degrees", place.longitudeDeg())
        .run();
  }

  /**
   * Ties an anchor to another spot.
   *
   * @param anchorId the anchor
   * @param spotId the ledger's number of the other spot
   */
  public void give(long anchorId, long spotId) {
    session.changing(LedgerSession.Content.ANCHORS);
    session
        .call("UPDATE anchors SET spot_id = ? WHERE id = ?")
        .integer(spotId)
        .integer(anchorId)
        .run();
  }

  /**
   * Unties an anchor.
   *
   * @param anchorId the anchor
   */
  public void remove(long anchorId) {
    session.changing(LedgerSession.Content.ANCHORS);
    session.call("DELETE FROM anchors WHERE id = ?").integer(anchorId).run();
  }
}

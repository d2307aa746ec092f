package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.List;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;

/** The spots that the owner deleted, as they were, so that they can be brought back. */
public final class DroppedSpotStore {
  private static final String DROPPED =
      "SELECT d.id, d.name, d.area, d.latitude_deg, d.longitude_deg, d.zone, d.open, d.facings,"
          + " d.notes, d.cautions, d.position_by_owner,"
          + " (SELECT count(*) FROM shots WHERE dropped_spot_id = d.id) FROM dropped_spots d";

  private final LedgerSession session;

  DroppedSpotStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Deletes a spot and remembers it. Its shots stay, and belong to the dropped spot.
   *
   * @param spot the spot
   * @throws LedgerException when there is no such spot, or a shortlist or a session has it
   */
  public void drop(Spot spot) {
    session.changing(LedgerSession.Content.DROPPED_SPOTS);
    session.changing(LedgerSession.Content.ANCHORS);
    session.changing(LedgerSession.Content.SHOTS);
    ZoneId zone = spot.zone();
    session
        .call(
            "INSERT INTO dropped_spots (id, latitude_deg, longitude_deg, position_by_owner, name,"
                + " area, zone, open, notes, cautions, facings) VALUES (?, ?, ?,"
                + " (SELECT position_by_owner FROM spots WHERE id = ?), ?, ?, ?, ?, ?, ?, ?)")
        .integer(spot.id())
        .real("latitude in degrees", spot.position().latitudeDeg())
        .real("longitude in degrees", spot.position().longitudeDeg())
        .integer(spot.id())
        .text(spot.name())
        .text(spot.area())
        .text(zone == null ? null : zone.getId())
        .flag(spot.open())
        .text(spot.notes())
        .text(spot.cautions())
        .text(
            Json.ofTexts(
                spot.facings().stream()
                    .filter(facing -> facing.origin() == Facing.Origin.OWNER)
                    .map(facing -> facing.bearing().trueDeg() + " " + facing.spreadDeg())
                    .toList()))
        .run();
    session
        .call(
            "UPDATE dropped_spots SET hazards = (SELECT json_group_array(hazard) FROM spot_hazards"
                + " WHERE spot_id = ?) WHERE id = ?")
        .integer(spot.id())
        .integer(spot.id())
        .run();
    session.grouping().anchor(spot.id(), spot.position());
    session
        .call("UPDATE anchors SET (spot_id, dropped_spot_id) = (NULL, ?) WHERE spot_id = ?")
        .integer(spot.id())
        .integer(spot.id())
        .run();
    session
        .call("UPDATE shots SET (spot_id, dropped_spot_id) = (NULL, ?) WHERE spot_id = ?")
        .integer(spot.id())
        .integer(spot.id())
        .run();
    session.spots().delete(spot.id());
  }

  /**
   * The spots that the owner deleted.
   *
   * @return by number
   */
  public List<DroppedSpot> all() {
    return session.call(DROPPED + " ORDER BY d.id").list(DroppedSpotStore::readDropped);
  }

  /**
   * Brings a dropped spot back with its number, its words and its shots.
   *
   * @param id the number it had
   * @return the spot
   * @throws LedgerException when no spot with this number was dropped
   */
  public Spot bringBack(long id) {
    DroppedSpot dropped =
        session
            .call(DROPPED + " WHERE d.id = ?")
            .integer(id)
            .first(DroppedSpotStore::readDropped)
            .orElseThrow(() -> LedgerException.notFound("dropped spot", id));
    session.spots().insertAgain(dropped.spot(), dropped.byOwner());
    session.changing(LedgerSession.Content.DROPPED_SPOTS);
    session.changing(LedgerSession.Content.ANCHORS);
    session.changing(LedgerSession.Content.SHOTS);
    session
        .call("UPDATE anchors SET (spot_id, dropped_spot_id) = (?, NULL) WHERE dropped_spot_id = ?")
        .integer(id)
        .integer(id)
        .run();
    session
        .call("UPDATE shots SET (spot_id, dropped_spot_id) = (?, NULL) WHERE dropped_spot_id = ?")
        .integer(id)
        .integer(id)
        .run();
    session.changing(LedgerSession.Content.SPOT_HAZARDS);
    session
        .call(
            "INSERT INTO spot_hazards (spot_id, hazard)"
                + " SELECT d.id, h.value FROM dropped_spots d, json_each(d.hazards) h WHERE d.id = ?")
        .integer(id)
        .run();
    session.call("DELETE FROM dropped_spots WHERE id = ?").integer(id).run();
    session.grouping().settle(id);
    return dropped.spot();
  }

  private static DroppedSpot readDropped(Row row) throws SQLException {
    long id = row.integer();
    try {
      String name = row.text();
      String area = row.textOrNull();
      GeoPoint place = new GeoPoint(row.real(), row.real());
      String zone = row.textOrNull();
      boolean open = row.flag();
      List<Facing> facings =
          Json.texts(row.text()).stream().map(DroppedSpotStore::readFacing).toList();
      Spot spot =
          new Spot(
              id,
              name,
              area,
              place,
              zone == null ? null : ZoneId.of(zone),
              open,
              facings,
              row.text(),
              row.text());
      return new DroppedSpot(spot, row.flag(), row.integer());
    } catch (IllegalArgumentException | DateTimeException e) {
      throw LedgerException.foreign("dropped spot " + id, e);
    }
  }

  private static Facing readFacing(String text) {
    int space = text.indexOf(' ');
    if (space < 0) {
      throw new IllegalArgumentException("expected a bearing and a spread, found " + text);
    }
    return new Facing(
        new Bearing(Double.parseDouble(text.substring(0, space))),
        Double.parseDouble(text.substring(space + 1)),
        Facing.Origin.OWNER,
        0);
  }
}

package org.lightledger.store;

import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.List;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;

/** The spots that the owner deleted, as they were, so that they can be brought back. */
public final class DroppedSpotStore {
  private static final String DROPPED =
      "SELECT d.id, d.name, d.area, d.latitude_deg, d.longitude_deg, d.zone, d.open, d.facings,"
          + " d.notes, d.cautions, d.position_by_owner,"
          + " (SELECT count(*) FROM shots WHERE dropped_spot_id = d.id) FROM dropped_spots d";

  /** The lists that a dropped spot keeps in its own row. */
  private static final String KEEP =
      "UPDATE dropped_spots SET"
          + " traits = (SELECT json_group_array(trait) FROM spot_traits WHERE spot_id = ?1),"
          + " hazards = (SELECT json_group_array(hazard) FROM spot_hazards WHERE spot_id = ?1),"
          + " hours = coalesce((SELECT json_array(opens, closes) FROM spot_hours"
          + " WHERE spot_id = ?1), '[]'), measured_points = ?2 WHERE id = ?1";

  private static final String GIVE_TRAITS =
      "INSERT INTO spot_traits (spot_id, trait) SELECT d.id, t.value"
          + " FROM dropped_spots d, json_each(d.traits) t WHERE d.id = ?";

  private static final String GIVE_HAZARDS =
      "INSERT INTO spot_hazards (spot_id, hazard) SELECT d.id, h.value"
          + " FROM dropped_spots d, json_each(d.hazards) h WHERE d.id = ?";

  private static final String GIVE_HOURS =
      "INSERT INTO spot_hours (spot_id, opens, closes) SELECT id, hours ->> 0, hours ->> 1"
          + " FROM dropped_spots WHERE id = ? AND json_array_length(hours) = 2";

  /** The dropped drives of a spot whose other end is there. */
  private static final String BOTH_ENDS_THERE =
      " (from_spot_id = ?1 OR to_spot_id = ?1)"
          + " AND EXISTS (SELECT 1 FROM spots WHERE id = from_spot_id)"
          + " AND EXISTS (SELECT 1 FROM spots WHERE id = to_spot_id)";

  private final LedgerSession session;

  DroppedSpotStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Deletes a spot and remembers it with all that hangs on it. Its shots stay, and belong to the
   * dropped spot.
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
    keepBelongings(spot.id());
    session.anchors().add(spot.id(), spot.position());
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

  private void keepBelongings(long id) {
    session.belongings().changing();
    List<String> measured =
        session.skylines().measured(id).stream()
            .map(point -> point.azimuthDeg() + " " + point.altitudeDeg())
            .toList();
    session.call(KEEP).integer(id).text(Json.ofTexts(measured)).run();
    session
        .call(
            "INSERT INTO dropped_drives (from_spot_id, to_spot_id, minutes)"
                + " SELECT from_spot_id, to_spot_id, minutes FROM drives"
                + " WHERE from_spot_id = ?1 OR to_spot_id = ?1")
        .integer(id)
        .run();
    session
        .call("UPDATE share_picks SET (spot_id, dropped_spot_id) = (NULL, ?1) WHERE spot_id = ?1")
        .integer(id)
        .run();
  }

  private void giveBelongings(long id) {
    session.belongings().changing();
    for (String give : List.of(GIVE_TRAITS, GIVE_HAZARDS, GIVE_HOURS)) {
      session.call(give).integer(id).run();
    }
    session.skylines().putMeasured(id, measured(id));
    session
        .call(
            "INSERT INTO drives (from_spot_id, to_spot_id, minutes)"
                + " SELECT from_spot_id, to_spot_id, minutes FROM dropped_drives WHERE"
                + BOTH_ENDS_THERE)
        .integer(id)
        .run();
    session.call("DELETE FROM dropped_drives WHERE" + BOTH_ENDS_THERE).integer(id).run();
    session
        .call(
            "UPDATE share_picks SET (spot_id, dropped_spot_id) = (?1, NULL)"
                + " WHERE dropped_spot_id = ?1")
        .integer(id)
        .run();
  }

  private List<MeasuredSkyline.Point> measured(long id) {
    return session
        .call("SELECT measured_points FROM dropped_spots WHERE id = ?")
        .integer(id)
        .first(
            row -> {
              try {
                return Json.texts(row.text()).stream().map(DroppedSpotStore::readPoint).toList();
              } catch (IllegalArgumentException e) {
                throw LedgerException.foreign("deleted spot " + id, e);
              }
            })
        .orElse(List.of());
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
   * Brings a dropped spot back with its number, its words, its shots and all that hung on it. A
   * drive comes back when the spots at both its ends are there.
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
            .orElseThrow(() -> LedgerException.notDeleted(id));
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
    giveBelongings(id);
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
      throw LedgerException.foreign("deleted spot " + id, e);
    }
  }

  private static Facing readFacing(String text) {
    double[] angles = angles(text);
    return new Facing(new Bearing(angles[0]), angles[1], Facing.Origin.OWNER, 0);
  }

  private static MeasuredSkyline.Point readPoint(String text) {
    double[] angles = angles(text);
    return new MeasuredSkyline.Point(angles[0], angles[1]);
  }

  private static double[] angles(String text) {
    int space = text.indexOf(' ');
    if (space < 0) {
      throw new IllegalArgumentException("expected two angles in degrees, found " + text);
    }
    return new double[] {
      Double.parseDouble(text.substring(0, space)), Double.parseDouble(text.substring(space + 1))
    };
  }
}

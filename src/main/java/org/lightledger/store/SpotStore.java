package org.lightledger.store;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Facing;
import org.lightledger.spot.LightProfile;
import org.lightledger.spot.Spot;

/** The spots with their facings. A spot's facings are the owner's first, then the shots'. */
public final class SpotStore {
  /** So that the rows of a spot follow each other. */
  static final String FACING_ORDER = " ORDER BY f.spot_id, f.origin, f.id";

  private final LedgerSession session;
  private final SpotRows rows = new SpotRows();

  SpotStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Adds a spot.
   *
   * @param spot the spot; its number is not used
   * @return the ledger's number of the spot
   * @throws LedgerException when a rule of the ledger is broken
   */
  public long insert(Spot spot) {
    session.changing(LedgerSession.Content.SPOTS);
    ZoneId zone = spot.zone();
    long id =
        session
            .call(
                "INSERT INTO spots (geom, name, area, zone, open, notes, cautions)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?) RETURNING id")
            .blob(GeoPackageGeometry.write(spot.position()))
            .text(spot.name())
            .text(spot.area())
            .text(zone == null ? null : zone.getId())
            .flag(spot.open())
            .text(spot.notes())
            .text(spot.cautions())
            .number();
    insertFacings(id, spot.facings());
    return id;
  }

  /** Adds a spot that was there before, with the number it had. */
  void insertAgain(Spot spot, boolean positionByOwner) {
    session.changing(LedgerSession.Content.SPOTS);
    ZoneId zone = spot.zone();
    session
        .call(
            "INSERT INTO spots (id, geom, name, area, zone, open, notes, cautions,"
                + " position_by_owner) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .integer(spot.id())
        .blob(GeoPackageGeometry.write(spot.position()))
        .text(spot.name())
        .text(spot.area())
        .text(zone == null ? null : zone.getId())
        .flag(spot.open())
        .text(spot.notes())
        .text(spot.cautions())
        .flag(positionByOwner)
        .run();
    insertFacings(spot.id(), spot.facings());
  }

  /**
   * Replaces the owner's words on a spot: its name, area, notes, cautions and whether it is open.
   * Position, zone and facings stay.
   *
   * @param spot the spot with its number and the new words
   * @throws LedgerException when there is no such spot, or a rule is broken
   */
  public void update(Spot spot) {
    session.changing(LedgerSession.Content.SPOTS);
    requireOne(
        spot.id(),
        session
            .call(
                "UPDATE spots SET (name, area, notes, cautions, open) = (?, ?, ?, ?, ?)"
                    + " WHERE id = ?")
            .text(spot.name())
            .text(spot.area())
            .text(spot.notes())
            .text(spot.cautions())
            .flag(spot.open())
            .integer(spot.id())
            .run());
  }

  /**
   * Moves a spot by the owner's word: no import moves it afterwards.
   *
   * @param id the ledger's number of the spot
   * @param position its new middle
   * @param zone the zone of the new place, or null when not known
   * @throws LedgerException when there is no such spot
   */
  public void move(long id, GeoPoint position, @Nullable ZoneId zone) {
    session.changing(LedgerSession.Content.SPOTS);
    requireOne(
        id,
        session
            .call("UPDATE spots SET geom = ?, zone = ?, position_by_owner = 1 WHERE id = ?")
            .blob(GeoPackageGeometry.write(position))
            .text(zone == null ? null : zone.getId())
            .integer(id)
            .run());
  }

  /**
   * Replaces a spot's facings of one origin; those of the other origin stay.
   *
   * @param id the ledger's number of the spot
   * @param facings the facings, all of that origin
   * @param origin which facings to replace
   * @throws LedgerException when there is no such spot
   */
  public void setFacings(long id, List<Facing> facings, Facing.Origin origin) {
    for (Facing facing : facings) {
      if (facing.origin() != origin) {
        throw new IllegalArgumentException(
            "expected facings of origin " + origin + ", found one of " + facing.origin());
      }
    }
    requireOne(
        id, (int) session.call("SELECT count(*) FROM spots WHERE id = ?").integer(id).number());
    session.changing(LedgerSession.Content.FACINGS);
    session
        .call("DELETE FROM facings WHERE spot_id = ? AND origin = ?")
        .integer(id)
        .name(origin)
        .run();
    insertFacings(id, facings);
  }

  /**
   * A spot's facings of one origin.
   *
   * @param id the ledger's number of the spot
   * @param origin which facings
   * @return in the order in which they were set
   */
  public List<Facing> facings(long id, Facing.Origin origin) {
    return session
        .call(
            "SELECT bearing_deg, spread_deg, shots FROM facings WHERE spot_id = ? AND origin = ?"
                + " ORDER BY id")
        .integer(id)
        .name(origin)
        .list(row -> new Facing(new Bearing(row.real()), row.real(), origin, row.whole()));
  }

  /**
   * Deletes a spot with its facings. Its shots stay, without a spot.
   *
   * @param id the ledger's number of the spot
   * @throws LedgerException when there is no such spot, or a shortlist or a session has it
   */
  public void delete(long id) {
    List<String> shortlists = session.shortlists().titlesWith(id);
    if (!shortlists.isEmpty()) {
      throw new LedgerException(
          LedgerException.Reason.RULE_BROKEN,
          "spot "
              + id
              + " is proposed on the shortlists "
              + shortlists
              + "; take it off them first, because a client may be looking at it");
    }
    List<String> sessions = session.sessions().titlesWith(id);
    if (!sessions.isEmpty()) {
      throw new LedgerException(
          LedgerException.Reason.RULE_BROKEN,
          "spot "
              + id
              + " belongs to the sessions of "
              + sessions
              + "; take it off their candidates and plans first");
    }
    session.changing(LedgerSession.Content.SPOTS);
    session.changing(LedgerSession.Content.FACINGS);
    session.changing(LedgerSession.Content.SHOTS);
    requireOne(id, session.call("DELETE FROM spots WHERE id = ?").integer(id).run());
  }

  /**
   * Finds a spot.
   *
   * @param id the ledger's number of the spot
   * @return the spot, or nothing when there is none
   */
  public Optional<Spot> find(long id) {
    return rows
        .join(
            session.call("SELECT " + SpotRows.SPOT + " FROM spots s WHERE s.id = ?").integer(id),
            session
                .call(
                    "SELECT "
                        + SpotRows.FACING
                        + " FROM facings f WHERE f.spot_id = ?"
                        + FACING_ORDER)
                .integer(id))
        .stream()
        .findFirst();
  }

  /**
   * Every spot.
   *
   * @return by number
   */
  public List<Spot> all() {
    return rows.join(
        session.call("SELECT " + SpotRows.SPOT + " FROM spots s ORDER BY s.id"),
        session.call("SELECT " + SpotRows.FACING + " FROM facings f" + FACING_ORDER));
  }

  /**
   * Counts the spots.
   *
   * @return how many there are
   */
  public long count() {
    return session.call("SELECT count(*) FROM spots").number();
  }

  /**
   * Everything the ledger knows of the light at a spot.
   *
   * @param id the ledger's number of the spot
   * @return its light profile, or nothing when there is no such spot
   */
  public Optional<LightProfile> profile(long id) {
    return find(id).map(spot -> new LightProfile(spot, session.observations().ofSpot(id)));
  }

  private void insertFacings(long spotId, List<Facing> facings) {
    if (!facings.isEmpty()) {
      session.changing(LedgerSession.Content.FACINGS);
    }
    for (Facing facing : facings) {
      session
          .call(
              "INSERT INTO facings (spot_id, bearing_deg, spread_deg, origin, shots)"
                  + " VALUES (?, ?, ?, ?, ?)")
          .integer(spotId)
          .real("bearing in degrees", facing.bearing().trueDeg())
          .real("spread in degrees", facing.spreadDeg())
          .name(facing.origin())
          .integer(facing.shots())
          .run();
    }
  }

  private static void requireOne(long id, int changed) {
    if (changed == 0) {
      throw LedgerException.notFound("spot", id);
    }
  }
}

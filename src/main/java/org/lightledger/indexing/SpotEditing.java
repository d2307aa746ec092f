package org.lightledger.indexing;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.store.AnchorStore;
import org.lightledger.store.AnchorStore.Anchor;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;
import org.lightledger.store.StoredShot;

/**
 * What the owner changes by hand about spots and their shots, within one transaction. Every change
 * leaves anchors, so that no later import undoes it.
 */
public final class SpotEditing {
  private final LedgerSession session;
  private final GroupingStore grouping;
  private final AnchorStore anchors;
  private final ZoneLookup zones;
  private final double joinDistanceM;

  SpotEditing(LedgerSession session, ZoneLookup zones, double joinDistanceM) {
    this.session = session;
    this.grouping = session.grouping();
    this.anchors = session.anchors();
    this.zones = zones;
    this.joinDistanceM = joinDistanceM;
  }

  /**
   * Joins a spot into another, which keeps its number and name. The other's old places stay places
   * whose new shots go to the joined spot. What the owner and clients say of both is put together,
   * so that no warning is lost; where the hours, or the drives to one place, differ, the spot that
   * stays keeps its own.
   *
   * @param spotId the spot that stays
   * @param otherId the spot that becomes part of it
   * @throws IllegalArgumentException when one is not there, or both are the same
   * @throws org.lightledger.store.LedgerException when a shortlist or a session has the other spot
   */
  public void join(long spotId, long otherId) {
    Spot spot = spot(spotId);
    Spot other = spot(otherId);
    if (spotId == otherId) {
      throw new IllegalArgumentException(
          "expected two spots to join, found spot " + spotId + " twice");
    }
    hold(spot);
    for (Anchor anchor : anchors.ofSpot(otherId)) {
      anchors.give(anchor.id(), spotId);
    }
    anchors.add(spotId, other.position());
    for (StoredShot shot : session.shots().ofSpot(otherId)) {
      grouping.assign(shot.id(), spotId, null, GroupingStore.Source.OWNER);
    }
    anchors.add(spotId, spot(spotId).position());
    session.spots().update(withWordsOf(spot(spotId), other));
    session.spots().setFacings(spotId, ownFacings(spot, other), Facing.Origin.OWNER);
    session.belongings().give(otherId, spotId);
    session.spots().delete(otherId);
    SpotPlacing.learnFacings(session, spotId);
  }

  private static Spot withWordsOf(Spot spot, Spot other) {
    return new Spot(
        spot.id(),
        spot.name(),
        spot.area() == null ? other.area() : spot.area(),
        spot.position(),
        spot.zone(),
        spot.open(),
        spot.facings(),
        together(spot.notes(), other.notes()),
        together(spot.cautions(), other.cautions()));
  }

  private static String together(String one, String other) {
    if (other.isBlank() || one.contains(other)) {
      return one;
    }
    return one.isBlank() ? other : one + "\n" + other;
  }

  private static List<Facing> ownFacings(Spot spot, Spot other) {
    return Stream.concat(spot.facings().stream(), other.facings().stream())
        .filter(facing -> facing.origin() == Facing.Origin.OWNER)
        .distinct()
        .toList();
  }

  /**
   * Splits shots off into a new spot. Between the two spots lies a boundary from then on: a later
   * shot goes to the one whose anchor is nearer.
   *
   * @param spotId the spot the shots are at
   * @param shotIds the shots, at least one with a known place, and not all
   * @return the new spot's number
   * @throws IllegalArgumentException when these shots can not be split off
   */
  public long split(long spotId, Collection<Long> shotIds) {
    Spot spot = spot(spotId);
    Set<Long> off = new LinkedHashSet<>(shotIds);
    List<StoredShot> shots = session.shots().ofSpot(spotId);
    List<StoredShot> parting = shots.stream().filter(shot -> off.contains(shot.id())).toList();
    if (parting.isEmpty() || parting.size() < off.size()) {
      throw new IllegalArgumentException(
          "expected shots of spot " + spotId + " to split off, found " + off);
    }
    if (parting.size() == shots.size()) {
      throw new IllegalArgumentException(
          "expected at least one shot to stay at spot "
              + spotId
              + ", found all of them to split off; move the spot instead");
    }
    GeoPoint first =
        parting.stream()
            .flatMap(shot -> placeOf(shot).stream())
            .findFirst()
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "expected a shot with a known place among those to split off, found none"));
    long made = SpotPlacing.makeSpot(session, spot.area(), first, SpotPlacing.zoneAt(zones, first));
    giveAnchorsBetween(spotId, made, shots, off);
    for (StoredShot shot : parting) {
      grouping.assign(shot.id(), made, null, GroupingStore.Source.OWNER);
    }
    hold(spot(made));
    hold(spot(spotId));
    SpotPlacing.learnFacings(session, made);
    SpotPlacing.learnFacings(session, spotId);
    return made;
  }

  /** An anchor goes with the shot that was taken nearest to it. */
  private void giveAnchorsBetween(
      long spotId, long made, List<StoredShot> shots, Set<Long> parting) {
    for (Anchor anchor : anchors.ofSpot(spotId)) {
      Optional<StoredShot> nearest =
          shots.stream()
              .filter(shot -> placeOf(shot).isPresent())
              .min(
                  Comparator.comparingDouble(
                      shot -> Geodesy.distanceM(anchor.place(), placeOf(shot).orElseThrow())));
      if (nearest.isPresent() && parting.contains(nearest.get().id())) {
        anchors.give(anchor.id(), made);
      }
    }
  }

  /**
   * Moves shots to another spot, because they were taken there whatever their positions say. A shot
   * whose position lies out of the spot's reach hardly counts in the spot's position.
   *
   * @param shotIds the shots
   * @param spotId the spot they belong to
   * @throws IllegalArgumentException when a shot or the spot is not there
   */
  public void moveShots(Collection<Long> shotIds, long spotId) {
    Spot spot = spot(spotId);
    hold(spot);
    if (shotIds.isEmpty()) {
      throw new IllegalArgumentException("expected one or more shots to move, found none");
    }
    Set<Long> changed = new HashSet<>(Set.of(spotId));
    for (long shotId : new LinkedHashSet<>(shotIds)) {
      StoredShot shot =
          session
              .shots()
              .find(shotId)
              .orElseThrow(
                  () ->
                      new IllegalArgumentException(
                          "expected the number of a shot, found "
                              + shotId
                              + ", which the ledger does not have"));
      boolean within =
          placeOf(shot)
              .map(
                  place ->
                      anchors.ofSpot(spotId).stream()
                          .anyMatch(
                              anchor -> Geodesy.distanceM(anchor.place(), place) <= joinDistanceM))
              .orElse(true);
      grouping.assign(
          shotId,
          spotId,
          null,
          within ? GroupingStore.Source.OWNER : GroupingStore.Source.OWNER_FAR);
      if (shot.spotId() != null) {
        changed.add(shot.spotId());
      }
    }
    for (long id : changed) {
      SpotPlacing.learnFacings(session, id);
    }
  }

  /**
   * Moves a spot to where the owner says it is. No import moves it afterwards; new shots at its old
   * place go to it still.
   *
   * @param spotId the spot
   * @param position where it is
   * @throws IllegalArgumentException when it is not there
   */
  public void moveTo(long spotId, GeoPoint position) {
    Spot spot = spot(spotId);
    hold(spot);
    if (grouping.isByOwner(spotId)) {
      forgetAnchorAt(spotId, spot.position());
    }
    anchors.add(spotId, position);
    session.spots().move(spotId, position, SpotPlacing.zoneAt(zones, position));
  }

  /**
   * Lets the shots of a spot say where it is again.
   *
   * @param spotId the spot
   * @throws IllegalArgumentException when it is not there
   */
  public void release(long spotId) {
    Spot spot = spot(spotId);
    grouping.release(spotId);
    if (!spot(spotId).position().equals(spot.position())) {
      forgetAnchorAt(spotId, spot.position());
    }
  }

  /** The owner's earlier word on a position does not outlive the later one. */
  private void forgetAnchorAt(long spotId, GeoPoint place) {
    anchors.ofSpot(spotId).stream()
        .filter(anchor -> anchor.place().equals(place))
        .forEach(anchor -> anchors.remove(anchor.id()));
  }

  /**
   * Names a spot.
   *
   * @param spotId the spot
   * @param name its new name, not blank
   * @throws IllegalArgumentException when it is not there or the name is blank
   */
  public void name(long spotId, String name) {
    Spot spot = spot(spotId);
    if (name.isBlank()) {
      throw new IllegalArgumentException("expected a name with letters in it, found a blank one");
    }
    session
        .spots()
        .update(
            new Spot(
                spot.id(),
                name.strip(),
                spot.area(),
                spot.position(),
                spot.zone(),
                spot.open(),
                spot.facings(),
                spot.notes(),
                spot.cautions()));
  }

  /**
   * Deletes a spot. Its shots stay in the ledger, without a spot, and so do new shots that are
   * taken there, until it is brought back.
   *
   * @param spotId the spot
   * @throws IllegalArgumentException when it is not there
   * @throws org.lightledger.store.LedgerException when a shortlist or a session has it
   */
  public void delete(long spotId) {
    session.droppedSpots().drop(spot(spotId));
  }

  /**
   * Brings a deleted spot back, with the shots that came to its place meanwhile.
   *
   * @param spotId the number it had
   * @return the spot
   * @throws org.lightledger.store.LedgerException when no spot with this number was deleted
   */
  public Spot bringBack(long spotId) {
    session.droppedSpots().bringBack(spotId);
    SpotPlacing.learnFacings(session, spotId);
    return spot(spotId);
  }

  /**
   * The other spots around a spot.
   *
   * @param spotId the spot
   * @param radiusM how far, metres
   * @return nearest first
   * @throws IllegalArgumentException when it is not there
   */
  public List<NearSpot> neighbours(long spotId, double radiusM) {
    List<NearSpot> found =
        new ArrayList<>(session.spotSearch().within(spot(spotId).position(), radiusM));
    found.removeIf(near -> near.spot().id() == spotId);
    return found;
  }

  /** From now on a spot is measured from where it is now. */
  private void hold(Spot spot) {
    if (anchors.ofSpot(spot.id()).isEmpty()) {
      anchors.add(spot.id(), spot.position());
    }
  }

  private static Optional<GeoPoint> placeOf(StoredShot shot) {
    return Optional.ofNullable(shot.shot().position()).map(position -> position.point());
  }

  private Spot spot(long spotId) {
    return session
        .spots()
        .find(spotId)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected the number of a spot, found "
                        + spotId
                        + ", which the ledger does not have; \"spots\" lists them"));
  }
}

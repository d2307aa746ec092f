package org.lightledger.exchange;

import java.time.ZoneId;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/**
 * A spot as it travels between ledgers and programs. The ledger's number stays at home, and of a
 * facing only where it looks: the shots that taught it do not travel.
 *
 * @param name its name, or null when the file gives none
 * @param area the area it belongs to, not blank, or null
 * @param position its middle
 * @param zone the zone of the place, or null when the file says none
 * @param open whether any direction works
 * @param facings where its background is good, in the order of the ledger
 * @param traits what it is and has
 * @param hazards what is dangerous or forbidden there
 * @param notes what the owner wrote about it, "" for nothing
 * @param cautions hazards and permissions to mind, "" for none
 */
public record ExchangedSpot(
    @Nullable String name,
    @Nullable String area,
    GeoPoint position,
    @Nullable ZoneId zone,
    boolean open,
    List<Looking> facings,
    Set<Trait> traits,
    Set<Hazard> hazards,
    String notes,
    String cautions) {

  /**
   * A facing without where it was learned.
   *
   * @param bearing its middle
   * @param spreadDeg how far to either side, degrees in [0, 180]
   */
  public record Looking(Bearing bearing, double spreadDeg) {

    /**
     * Checks the spread.
     *
     * @throws IllegalArgumentException when it is out of its interval
     */
    public Looking {
      if (!(spreadDeg >= 0 && spreadDeg <= 180)) {
        throw new IllegalArgumentException(
            "expected a spread in [0, 180] degrees, found " + spreadDeg);
      }
    }

    /**
     * The facing in the ledger that it comes to.
     *
     * @return a facing by the owner's word
     */
    public Facing byOwner() {
      return new Facing(bearing, spreadDeg, Facing.Origin.OWNER, 0);
    }
  }

  /** Keeps own copies of the lists. */
  public ExchangedSpot {
    facings = List.copyOf(facings);
    EnumSet<Trait> own = EnumSet.noneOf(Trait.class);
    own.addAll(traits);
    traits = Collections.unmodifiableSet(own);
    EnumSet<Hazard> mind = EnumSet.noneOf(Hazard.class);
    mind.addAll(hazards);
    hazards = Collections.unmodifiableSet(mind);
  }

  /**
   * A spot of a ledger, ready to travel.
   *
   * @param spot the spot
   * @param traits what it is and has
   * @param hazards what is dangerous or forbidden there
   * @param withNotes whether the owner's notes go along, which are private
   * @return what travels
   */
  public static ExchangedSpot of(
      Spot spot, Set<Trait> traits, Set<Hazard> hazards, boolean withNotes) {
    return new ExchangedSpot(
        spot.name(),
        spot.area(),
        spot.position(),
        spot.zone(),
        spot.open(),
        spot.facings().stream()
            .map(facing -> new Looking(facing.bearing(), facing.spreadDeg()))
            .toList(),
        traits,
        hazards,
        withNotes ? spot.notes() : "",
        spot.cautions());
  }
}

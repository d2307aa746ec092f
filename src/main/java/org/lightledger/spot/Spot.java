package org.lightledger.spot;

import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * A place where a subject can stand, a few metres wide.
 *
 * @param id the ledger's number of the spot
 * @param name the owner's name for it
 * @param area the name of the area it belongs to, or null
 * @param position its middle
 * @param zone the zone of the place, or null when not known
 * @param open whether any direction works, by the owner's word
 * @param facings its facings; empty when none is known
 * @param notes what the owner wrote about it, "" for nothing
 * @param cautions hazards and permissions to mind, "" for none noted
 */
public record Spot(
    long id,
    String name,
    @Nullable String area,
    GeoPoint position,
    @Nullable ZoneId zone,
    boolean open,
    List<Facing> facings,
    String notes,
    String cautions) {

  /** Keeps an own copy of the facings. */
  public Spot {
    facings = List.copyOf(facings);
  }
}

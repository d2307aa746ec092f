package org.lightledger.shot.zone;

import java.time.ZoneId;
import java.util.List;

/**
 * The time zones of a place. More than one near a border and in disputed territory; none where the
 * map has none. An empty answer stays empty.
 *
 * @param zones the zones that this Java knows, by name
 * @param unknownNames zones of the place whose rules this Java's time zone data lacks
 */
public record ZonesAtPlace(List<ZoneId> zones, List<String> unknownNames) {
  /** Keeps own copies of the lists. */
  public ZonesAtPlace {
    zones = List.copyOf(zones);
    unknownNames = List.copyOf(unknownNames);
  }
}

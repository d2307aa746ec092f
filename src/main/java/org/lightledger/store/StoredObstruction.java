package org.lightledger.store;

import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.buildings.Obstruction;

/**
 * An obstruction in the ledger.
 *
 * @param id the ledger's number
 * @param obstruction what stands there; its id is what it is in its source, such as "way/123", or
 *     what the owner calls it
 * @param name its name on the map, or null
 * @param mapId the map that it came from, or null when the owner drew it
 */
public record StoredObstruction(
    long id, Obstruction obstruction, @Nullable String name, @Nullable Long mapId) {

  /**
   * Whether the owner drew it.
   *
   * @return true when it did not come from a map
   */
  public boolean byOwner() {
    return mapId == null;
  }
}

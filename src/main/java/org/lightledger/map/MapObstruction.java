package org.lightledger.map;

import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.buildings.Obstruction;

/**
 * A building or trees on the map.
 *
 * @param obstruction what stands there; its id says what it is in its source, such as "way/123"
 * @param name its name, or null when it has none
 */
public record MapObstruction(Obstruction obstruction, @Nullable String name) {}

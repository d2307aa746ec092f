package org.lightledger.map;

import org.jspecify.annotations.Nullable;
import org.locationtech.jts.geom.Geometry;

/**
 * Something that is drawn on the map.
 *
 * @param sourceId what it is in its source, such as "way/123"
 * @param kind what it is
 * @param name its name, or null when it has none
 * @param level below the ground -1, on it 0, above it 1, as a bridge is
 * @param geometry where it is, longitude before latitude, WGS 84
 */
public record MapFeature(
    String sourceId, FeatureKind kind, @Nullable String name, int level, Geometry geometry) {

  /**
   * Checks the feature.
   *
   * @throws IllegalArgumentException when it is nowhere or its form is not its kind's
   */
  public MapFeature {
    int dimension =
        switch (kind.form()) {
          case POINT -> 0;
          case LINE -> 1;
          case AREA -> 2;
        };
    if (geometry.isEmpty() || geometry.getDimension() != dimension) {
      throw new IllegalArgumentException(
          "expected a %s for %s, found %s"
              .formatted(kind.form(), kind, geometry.isEmpty() ? "nothing" : geometry));
    }
    if (level < -1 || level > 1) {
      throw new IllegalArgumentException("expected a level of -1, 0 or 1, found " + level);
    }
  }
}

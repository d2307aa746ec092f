package org.lightledger.scenario.region;

import org.lightledger.geo.GeoPoint;
import org.lightledger.scenario.LocalFrame;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.Terrain;

/**
 * The invented land beyond what the photos show: where they end, the hills sink into a plain that
 * goes on for ever.
 */
final class RegionLand {
  /** Half the width of the square of land in the photos, metres. */
  private static final double PHOTO_LAND_M = 14_400;

  /** Where the last foothill ends, metres east, west, north or south of the town. */
  private static final double PLAIN_FROM_M = 17_400;

  /** The plain's height above sea level, metres: below the river, so that it hides nothing. */
  private static final double PLAIN_M = 764;

  private final Terrain terrain;

  RegionLand(Terrain terrain) {
    this.terrain = terrain;
  }

  /** The ground's height above sea level, metres. */
  double elevationM(GeoPoint place) {
    Point local = LocalFrame.toLocal(place);
    double out = Math.max(Math.abs(local.east()), Math.abs(local.north()));
    if (out >= PLAIN_FROM_M) {
      return PLAIN_M;
    }
    double inside = terrain.elevationM(local);
    double t = Math.max(0, (out - PHOTO_LAND_M) / (PLAIN_FROM_M - PHOTO_LAND_M));
    return inside + (PLAIN_M - inside) * t * t * (3 - 2 * t);
  }
}

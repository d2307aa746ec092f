package org.lightledger.skyline.buildings;

import org.jspecify.annotations.Nullable;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygonal;

/**
 * Something with upright sides and a flat top. Where it does not reach the ground, as a bridge or
 * the upper part of a tower, it counts as if it did: sun that shines through beneath is not known.
 *
 * @param id to tell it from others, as its source names it
 * @param kind what it is
 * @param outline the ground it covers, a polygon or several, longitude before latitude, WGS 84
 * @param heightM its top above the ground, metres in (minHeightM, 1000]
 * @param minHeightM its lower side above the ground, metres, 0 or more
 * @param heightSource where the height comes from
 * @param groundM the ground it stands on, metres above the elevation model's zero; null when it is
 *     not known
 */
public record Obstruction(
    String id,
    ObstructionKind kind,
    Geometry outline,
    double heightM,
    double minHeightM,
    HeightSource heightSource,
    @Nullable Double groundM) {

  /**
   * Checks the obstruction.
   *
   * @throws IllegalArgumentException when the outline is no area or a height is out of its interval
   */
  public Obstruction {
    if (!(outline instanceof Polygonal) || outline.isEmpty()) {
      throw new IllegalArgumentException(
          "expected an outline with an area, found " + outline.getGeometryType());
    }
    if (!(minHeightM >= 0.0 && minHeightM < heightM && heightM <= Heights.HIGHEST_M)) {
      throw new IllegalArgumentException(
          "expected 0 <= min_height < height <= 1000 metres, found %s and %s"
              .formatted(minHeightM, heightM));
    }
    if (groundM != null && !Double.isFinite(groundM)) {
      throw new IllegalArgumentException("expected a finite ground height, found " + groundM);
    }
  }
}

package org.lightledger.skyline.buildings;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SunDirection;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.GeometryFilter;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.operation.overlayng.OverlayNG;
import org.locationtech.jts.operation.overlayng.OverlayNGRobust;

/**
 * The shadows of buildings and trees at an instant, and the ground they cover themselves. Each is
 * the outline, swept away from the sun as far as the shadow of its top reaches; a place lies in it
 * exactly when the obstruction stands above the sun's centre there, as {@link BuildingHorizon} has
 * it.
 *
 * <p>What this supposes: the ground is level around each obstruction, at the height of its foot; on
 * a slope a true shadow is longer downhill and shorter uphill. Land casts no shadow here: whether a
 * hill hides the sun, a skyline tells. What does not reach the ground counts as if it did, as
 * {@link Obstruction} says, so a bridge shades what lies beneath. Rays are parallel over the box,
 * and the sun's altitude follows the curve of the earth. The sun is half a degree wide, so at a
 * distance d from the edge that casts it a true shadow fades over d times 0.01 or more.
 *
 * @param area the shaded area within the box, longitude before latitude, WGS 84; empty when there
 *     is none
 * @param obstructions how many obstructions were looked at
 * @param cut whether a shadow was longer than the longest that was asked for, so that what lies
 *     farther is not known
 */
public record CastShadow(Geometry area, int obstructions, boolean cut) {
  /** The plane around the middle is exact enough this far, metres. */
  private static final double FARTHEST_M = 5000.0;

  /** Room for what the plane and the degrees of a box differ by, as a share: own choice. */
  private static final double ROOM = 1.02;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /**
   * Casts the shadows.
   *
   * @param obstructions of the region; what stands outside the box shades it as well
   * @param box degrees of longitude (x) and latitude (y), not across the date line, at most 5 km
   *     from its middle to its corners
   * @param sun where it stands in the middle of the box
   * @param options how to cast
   * @return the shadows, or nothing when the sun's centre is not above the level horizon
   * @throws IllegalArgumentException when the box is empty, too large or not on earth
   */
  public static Optional<CastShadow> within(
      Obstructions obstructions, Envelope box, SunDirection sun, ShadowOptions options) {
    requireBox(box);
    if (!(sun.apparentAltitudeDeg() > 0.0)) {
      return Optional.empty();
    }
    GeoPoint middle = new GeoPoint(box.centre().y, box.centre().x);
    LocalPlane plane = new LocalPlane(middle);
    requireNear(box, plane);
    ShadowSweep sweep = new ShadowSweep(plane, sun, options);
    double reachM =
        Math.min(
            options.longestM(),
            options.reachM(obstructions.highestM(), sun.apparentAltitudeDeg()) * ROOM);
    List<Outline> near = obstructions.near(sourceBox(box, plane, sun, reachM));
    List<Geometry> shadows = near.stream().flatMap(outline -> sweep.of(outline)).toList();
    List<Polygon> parts = new ArrayList<>();
    for (Geometry joined : ShadowUnion.of(shadows)) {
      parts.addAll(clipped(sweep.toDegrees(joined), box));
    }
    return Optional.of(new CastShadow(area(parts), near.size(), sweep.cut()));
  }

  private static Geometry area(List<Polygon> parts) {
    return parts.isEmpty() ? FACTORY.createPolygon() : FACTORY.buildGeometry(parts);
  }

  /**
   * The part of an area within the box, without the points and lines that touching may leave.
   * Corners that nearly touch may change sides when they are rounded to degrees, which is mended.
   */
  private static List<Polygon> clipped(Geometry area, Envelope box) {
    Geometry valid = area.isValid() ? area : GeometryFixer.fix(area);
    Geometry within =
        box.covers(valid.getEnvelopeInternal())
            ? valid
            : OverlayNGRobust.overlay(valid, FACTORY.toGeometry(box), OverlayNG.INTERSECTION);
    List<Polygon> polygons = new ArrayList<>();
    within.apply(
        (GeometryFilter)
            part -> {
              if (part instanceof Polygon polygon && !polygon.isEmpty()) {
                polygons.add(polygon);
              }
            });
    return polygons;
  }

  /** The box, grown towards the sun. */
  private static Envelope sourceBox(
      Envelope box, LocalPlane plane, SunDirection sun, double reachM) {
    double azimuth = Math.toRadians(sun.azimuth().trueDeg());
    double eastDeg = plane.longitudeDeg(reachM * Math.sin(azimuth)) * ROOM;
    double northDeg = plane.latitudeDeg(reachM * Math.cos(azimuth)) * ROOM;
    Envelope source = new Envelope(box);
    source.expandToInclude(box.getMinX() + eastDeg, box.getMinY() + northDeg);
    source.expandToInclude(box.getMaxX() + eastDeg, box.getMaxY() + northDeg);
    // A meridian's convergence turns the sun's azimuth by less than this within the box.
    source.expandBy(Math.abs(northDeg) * (ROOM - 1.0), Math.abs(eastDeg) * (ROOM - 1.0));
    return source;
  }

  private static void requireBox(Envelope box) {
    if (box.isNull()
        || !(box.getWidth() > 0.0 && box.getHeight() > 0.0)
        || !(box.getMinX() >= -180.0 && box.getMaxX() <= 180.0)
        || !(box.getMinY() >= -90.0 && box.getMaxY() <= 90.0)) {
      throw new IllegalArgumentException(
          "expected a box with longitudes in [-180, 180] and latitudes in [-90, 90], found " + box);
    }
  }

  private static void requireNear(Envelope box, LocalPlane plane) {
    double farthestM =
        Stream.of(box.getMinY(), box.getMaxY())
            .mapToDouble(
                latitude ->
                    Math.hypot(
                        plane.eastM(box.getMinX(), latitude),
                        plane.northM(box.getMinX(), latitude)))
            .max()
            .orElseThrow();
    if (!(farthestM <= FARTHEST_M)) {
      throw new IllegalArgumentException(
          "expected a box of at most 5000 metres from its middle to its corners, found %.0f; ask for"
                  .formatted(farthestM)
              + " a smaller box");
    }
  }
}

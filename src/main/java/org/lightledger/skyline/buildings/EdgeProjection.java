package org.lightledger.skyline.buildings;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.Skyline;

/**
 * Projects the upper edges of obstructions onto the azimuths of a skyline: exactly at each azimuth,
 * and as the highest point within half a step on both sides of it.
 *
 * <p>Not for use by several threads at once.
 */
final class EdgeProjection {
  /** Nothing is nearer than this, metres, so that a place on a wall has an angle: own choice. */
  private static final double NEAREST_M = 0.01;

  private static final int STEPS = Skyline.STEPS;
  private static final double STEP_DEG = Skyline.STEP_DEG;

  /** Twice as many directions as steps: even ones at a step's azimuth, odd ones between two. */
  private static final double[] SINES = new double[2 * STEPS];

  private static final double[] COSINES = new double[2 * STEPS];

  static {
    for (int i = 0; i < 2 * STEPS; i++) {
      SINES[i] = Math.sin(Math.toRadians(i * STEP_DEG / 2.0));
      COSINES[i] = Math.cos(Math.toRadians(i * STEP_DEG / 2.0));
    }
  }

  private final LocalPlane plane;
  private final double eyeHeightM;
  private final double drop;
  private final double[] tangents = new double[STEPS];
  private final double[] distancesM = new double[STEPS];
  private final double[] highestTangents = new double[STEPS];
  private final @Nullable Obstruction[] standing = new Obstruction[STEPS];
  private double[] easts = new double[64];
  private double[] norths = new double[64];
  private double[] azimuthsDeg = new double[64];
  private double riseM;

  EdgeProjection(LocalPlane plane, BuildingOptions options) {
    this.plane = plane;
    this.eyeHeightM = options.eyeHeightM();
    this.drop = options.lineOfSight().dropPerM2();
    Arrays.fill(tangents, Double.NEGATIVE_INFINITY);
    Arrays.fill(highestTangents, Double.NEGATIVE_INFINITY);
  }

  /**
   * Adds an obstruction.
   *
   * @param outline which
   * @param groundRisesM its ground above the ground of the place
   * @return false when the place is inside it, which leaves it out
   */
  boolean add(Outline outline, double groundRisesM) {
    locate(outline.rings());
    if (aroundPlace(outline.rings())) {
      return false;
    }
    riseM = groundRisesM + outline.obstruction().heightM() - eyeHeightM;
    int at = 0;
    for (double[] ring : outline.rings()) {
      int end = at + ring.length / 2;
      for (int i = at; i + 1 < end; i++) {
        azimuthsDeg[i] = Math.toDegrees(Math.atan2(easts[i], norths[i]));
      }
      azimuthsDeg[end - 1] = azimuthsDeg[at];
      for (int i = at; i + 1 < end; i++) {
        edge(i, i + 1, outline.obstruction());
      }
      at = end;
    }
    return true;
  }

  BuildingHorizon horizon(List<Obstruction> inside) {
    return new BuildingHorizon(tangents, distancesM, highestTangents, standing, inside);
  }

  private void locate(double[][] rings) {
    int corners = 0;
    for (double[] ring : rings) {
      corners += ring.length / 2;
    }
    if (corners > easts.length) {
      easts = new double[corners];
      norths = new double[corners];
      azimuthsDeg = new double[corners];
    }
    int at = 0;
    for (double[] ring : rings) {
      for (int i = 0; i < ring.length; i += 2) {
        easts[at] = plane.eastM(ring[i], ring[i + 1]);
        norths[at] = plane.northM(ring[i], ring[i + 1]);
        at++;
      }
    }
  }

  /** A ray to the east crosses the rings an odd number of times. */
  private boolean aroundPlace(double[][] rings) {
    boolean around = false;
    int at = 0;
    for (double[] ring : rings) {
      int end = at + ring.length / 2;
      for (int i = at; i + 1 < end; i++) {
        if (norths[i] > 0.0 != norths[i + 1] > 0.0
            && easts[i] - norths[i] * (easts[i + 1] - easts[i]) / (norths[i + 1] - norths[i])
                > 0.0) {
          around = !around;
        }
      }
      at = end;
    }
    return around;
  }

  private void edge(int from, int to, Obstruction obstruction) {
    double turnDeg = azimuthsDeg[to] - azimuthsDeg[from];
    if (turnDeg > 180.0) {
      turnDeg -= 360.0;
    } else if (turnDeg <= -180.0) {
      turnDeg += 360.0;
    }
    int first = turnDeg >= 0.0 ? from : to;
    int last = turnDeg >= 0.0 ? to : from;
    double startDeg = azimuthsDeg[first] < 0.0 ? azimuthsDeg[first] + 360.0 : azimuthsDeg[first];
    double endDeg = startDeg + Math.abs(turnDeg);
    double alongEast = easts[last] - easts[first];
    double alongNorth = norths[last] - norths[first];
    double cross = easts[first] * alongNorth - norths[first] * alongEast;
    double firstM = Math.hypot(easts[first], norths[first]);
    double lastM = Math.hypot(easts[last], norths[last]);
    for (int i = (int) Math.ceil(startDeg / STEP_DEG); i * STEP_DEG <= endDeg; i++) {
      int step = i % STEPS;
      double distanceM = distanceM(2 * step, alongEast, alongNorth, cross);
      if (!(distanceM >= 0.0 && distanceM <= Math.max(firstM, lastM))) {
        // The edge points at the place, so the direction meets it nowhere or all along.
        distanceM = riseM > 0.0 ? Math.min(firstM, lastM) : Math.max(firstM, lastM);
      }
      double tangent = tangent(distanceM);
      if (tangent > tangents[step]) {
        tangents[step] = tangent;
        distancesM[step] = distanceM;
        standing[step] = obstruction;
      }
      raise(step, tangent);
    }
    raise(bin(startDeg), tangent(firstM));
    raise(bin(endDeg), tangent(lastM));
    for (int i = bin(startDeg); i < bin(endDeg); i++) {
      double tangent = tangent(distanceM(2 * (i % STEPS) + 1, alongEast, alongNorth, cross));
      raise(i, tangent);
      raise(i + 1, tangent);
    }
    nearestPoint(first, alongEast, alongNorth, cross);
  }

  /** Where the foot of the perpendicular lies on the edge, it is the highest point seen. */
  private void nearestPoint(int first, double alongEast, double alongNorth, double cross) {
    double length2 = alongEast * alongEast + alongNorth * alongNorth;
    double part = -(easts[first] * alongEast + norths[first] * alongNorth) / length2;
    if (part > 0.0 && part < 1.0) {
      double azimuthDeg =
          Math.toDegrees(
              Math.atan2(easts[first] + part * alongEast, norths[first] + part * alongNorth));
      raise(
          bin(azimuthDeg < 0.0 ? azimuthDeg + 360.0 : azimuthDeg),
          tangent(Math.abs(cross) / Math.sqrt(length2)));
    }
  }

  /** How far a direction meets the line through an edge. */
  private static double distanceM(
      int direction, double alongEast, double alongNorth, double cross) {
    return cross / (SINES[direction] * alongNorth - COSINES[direction] * alongEast);
  }

  /** The tangent of the apparent altitude of the obstruction's top. */
  private double tangent(double distanceM) {
    double notNearerM = distanceM >= NEAREST_M ? distanceM : NEAREST_M;
    return riseM / notNearerM - notNearerM * drop;
  }

  private void raise(int bin, double tangent) {
    int step = bin % STEPS;
    highestTangents[step] = Math.max(highestTangents[step], tangent);
  }

  /** The step whose azimuth is nearest; may be a turn too far. */
  private static int bin(double azimuthDeg) {
    return (int) Math.floor(azimuthDeg / STEP_DEG + 0.5);
  }
}

package org.lightledger.spot;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;

/**
 * Learns the facings of a spot from the directions of its shots.
 *
 * <p>The directions are laid on the circle and cut at the widest gaps until no group is wider than
 * {@link #WIDEST_GROUP_DEG}. The middle of a group is the mean of its directions, its spread
 * reaches its outermost shot and is at least {@link #LEAST_SPREAD_DEG}. The result does not depend
 * on the order of the shots.
 */
public final class FacingLearner {
  /** A background is one background within this arc; degrees. Own choice: about a 35 mm view. */
  public static final double WIDEST_GROUP_DEG = 60;

  /** Half of a short telephoto's view and a phone compass's error; degrees. Own choice. */
  public static final double LEAST_SPREAD_DEG = 15;

  private FacingLearner() {}

  /**
   * The facings that a set of directions suggests.
   *
   * @param directions where the shots look
   * @return facings by bearing, ascending; empty when there are no directions
   */
  public static List<Facing> learn(List<Bearing> directions) {
    if (directions.isEmpty()) {
      return List.of();
    }
    double[] unrolled = unrollAtWidestGap(directions);
    List<Facing> facings = new ArrayList<>();
    split(unrolled, 0, unrolled.length, facings);
    facings.sort(Comparator.comparingDouble(facing -> facing.bearing().trueDeg()));
    return List.copyOf(facings);
  }

  /** Ascending angles that begin behind the widest gap of the circle and may run past 360. */
  private static double[] unrollAtWidestGap(List<Bearing> directions) {
    double[] sorted = directions.stream().mapToDouble(Bearing::trueDeg).sorted().toArray();
    int start = 0;
    double widest = sorted[0] + 360.0 - sorted[sorted.length - 1];
    for (int i = 1; i < sorted.length; i++) {
      double gap = sorted[i] - sorted[i - 1];
      if (gap > widest) {
        widest = gap;
        start = i;
      }
    }
    double[] unrolled = new double[sorted.length];
    for (int i = 0; i < sorted.length; i++) {
      int from = start + i;
      unrolled[i] = from < sorted.length ? sorted[from] : sorted[from - sorted.length] + 360.0;
    }
    return unrolled;
  }

  private static void split(double[] angles, int from, int to, List<Facing> facings) {
    if (angles[to - 1] - angles[from] <= WIDEST_GROUP_DEG) {
      facings.add(facing(angles, from, to));
      return;
    }
    int cut = from + 1;
    for (int i = from + 2; i < to; i++) {
      if (angles[i] - angles[i - 1] > angles[cut] - angles[cut - 1]) {
        cut = i;
      }
    }
    split(angles, from, cut, facings);
    split(angles, cut, to, facings);
  }

  private static Facing facing(double[] angles, int from, int to) {
    double sum = 0;
    for (int i = from; i < to; i++) {
      sum += angles[i] - angles[from];
    }
    double middle = angles[from] + sum / (to - from);
    double reach = Math.max(middle - angles[from], angles[to - 1] - middle);
    return new Facing(
        new Bearing(Angles.normalizeDeg(middle)),
        Math.max(LEAST_SPREAD_DEG, reach),
        Facing.Origin.SHOTS,
        to - from);
  }
}

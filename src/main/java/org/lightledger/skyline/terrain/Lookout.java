package org.lightledger.skyline.terrain;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.SkylineFlag;

/**
 * Looks from one place in one direction after the other. Not for use by several threads at once.
 */
final class Lookout {
  /** A gap up to the diagonal of two cells is the seam between two lattices, not unknown land. */
  private static final double SEAM_CELLS = 2.83;

  private final List<Lattice> lattices;
  private final TerrainOptions options;
  private final RayPath path;
  private final Sight sight;
  private final RayWalk walk;
  private final double[] cols;
  private final double[] rows;
  private final Gaps[] gaps = {new Gaps(), new Gaps()};
  private Gaps unknown = gaps[0];

  Lookout(ElevationSurface surface, GeoPoint place, double eyeM, TerrainOptions options) {
    this.lattices = surface.finestFirst();
    this.options = options;
    path = new RayPath(place, options.reachM());
    sight = new Sight(eyeM, options.lineOfSight().dropPerM2());
    walk = new RayWalk(sight);
    cols = new double[path.nodes];
    rows = new double[path.nodes];
  }

  void look(double azimuthDeg) {
    path.turnTo(azimuthDeg);
    sight.restart();
    unknown = gaps[0];
    unknown.clear();
    unknown.add(0.0, options.reachM(), true);
    for (int i = 0; i < lattices.size(); i++) {
      Lattice lattice = lattices.get(i);
      path.onto(lattice.mapping(), cols, rows);
      if (i == 0) {
        new Glance(lattice, sight).along(path.distanceM, cols, rows, path.nodes);
      }
      unknown = walkUnknown(lattice, i == lattices.size() - 1);
    }
  }

  /** Walks what is not known yet, and returns what is still not known. */
  private Gaps walkUnknown(Lattice lattice, boolean last) {
    Gaps left = unknown == gaps[0] ? gaps[1] : gaps[0];
    left.clear();
    for (int gap = 0; gap < unknown.count(); gap++) {
      walk.walk(
          lattice,
          path.distanceM,
          cols,
          rows,
          path.nodes,
          unknown.fromM(gap),
          unknown.toM(gap),
          left,
          last);
    }
    return left;
  }

  double altitudeDeg() {
    return Math.toDegrees(Math.atan(sight.tangent()));
  }

  double distanceM() {
    return sight.distanceM();
  }

  /** A gap limits the horizon when the highest land of the earth, standing in it, would show. */
  Set<SkylineFlag> limits() {
    double seamM =
        lattices.isEmpty() ? 0.0 : SEAM_CELLS * lattices.get(lattices.size() - 1).spacingM();
    EnumSet<SkylineFlag> limits = EnumSet.noneOf(SkylineFlag.class);
    for (int gap = 0; gap < unknown.count(); gap++) {
      double fromM = unknown.fromM(gap);
      double toM = unknown.toM(gap);
      boolean matters =
          fromM < options.knownToM() && sight.neededM(fromM, toM) < Sight.HIGHEST_LAND_M;
      boolean seam = unknown.outside(gap) && toM - fromM <= seamM && toM < options.reachM();
      if (matters && !seam) {
        limits.add(
            unknown.outside(gap) ? SkylineFlag.LEFT_KNOWN_ELEVATION : SkylineFlag.CROSSED_VOID);
      }
    }
    return limits;
  }
}

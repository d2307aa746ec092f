package org.lightledger.scenario.render;

import org.lightledger.scenario.Tree;

/** Grows trees: a trunk, limbs that bend, twigs, and leaves about the twigs. */
final class TreeShapes {
  /**
   * How a kind of tree grows. Lengths are metres on the pattern tree.
   *
   * @param limbs number of limbs
   * @param from height of the lowest limb
   * @param reach length of the longest limb
   * @param riseDeg how steeply limbs leave the trunk, degrees above level
   * @param lift how strongly limbs bend up (or, negative, hang) along their length
   * @param twigs twigs per limb
   * @param twig length of a twig
   * @param leaves leaves per twig
   * @param leafLength length of a leaf
   * @param leafWidth width of a leaf
   * @param trunk radius of the trunk at its foot
   */
  private record Habit(
      int limbs,
      double from,
      double reach,
      double riseDeg,
      double lift,
      int twigs,
      double twig,
      int leaves,
      double leafLength,
      double leafWidth,
      double trunk) {}

  private static final Habit POPLAR =
      new Habit(74, 1.6, 3.1, 66, 0.35, 9, 0.75, 24, 0.105, 0.085, 0.24);
  private static final Habit WILLOW =
      new Habit(26, 1.6, 4.2, 48, -0.35, 17, 1.9, 34, 0.15, 0.032, 0.34);
  private static final Habit ASH =
      new Habit(34, 2.4, 4.6, 38, 0.22, 15, 1.1, 34, 0.12, 0.062, 0.26);
  private static final Habit OAK =
      new Habit(30, 1.3, 3.7, 24, 0.25, 15, 0.95, 42, 0.085, 0.055, 0.28);
  private static final Habit FRUIT =
      new Habit(17, 0.9, 2.0, 32, 0.30, 12, 0.62, 34, 0.078, 0.046, 0.12);
  private static final Habit CYPRESS =
      new Habit(120, 0.3, 1.8, 58, 0.6, 8, 0.45, 34, 0.11, 0.06, 0.16);
  private static final Habit SHRUB =
      new Habit(16, 0.1, 1.7, 55, 0.0, 10, 0.6, 30, 0.075, 0.045, 0.05);

  private final Mesh mesh = new Mesh();
  private final Dice dice;
  private final Tree.Kind kind;
  private final Habit habit;
  private final Season season;
  private final int coarse;

  private TreeShapes(Tree.Kind kind, Season season, long seed, int coarse) {
    this.coarse = coarse;
    this.kind = kind;
    this.season = season;
    dice = new Dice(seed);
    habit =
        switch (kind) {
          case POPLAR -> POPLAR;
          case WILLOW -> WILLOW;
          case ASH -> ASH;
          case HOLM_OAK -> OAK;
          case FRUIT -> FRUIT;
          case CYPRESS -> CYPRESS;
          case SHRUB -> SHRUB;
        };
  }

  /**
   * A tree.
   *
   * @param coarse how many times fewer and larger its leaves are, 1 for close trees
   */
  static Shape grow(Tree.Kind kind, Season season, long seed, int coarse) {
    TreeShapes maker = new TreeShapes(kind, season, seed, coarse);
    maker.grow();
    return maker.mesh.freeze();
  }

  private void grow() {
    double height = kind.patternM();
    double trunkTop =
        height * (kind == Tree.Kind.POPLAR || kind == Tree.Kind.CYPRESS ? 0.95 : 0.62);
    Vec3[] trunk = new Vec3[9];
    Vec3 at = new Vec3(0, 0, -0.4);
    double sway = kind == Tree.Kind.POPLAR || kind == Tree.Kind.CYPRESS ? 0.01 : 0.035;
    for (int i = 0; i < trunk.length; i++) {
      trunk[i] = at;
      double step = (trunkTop + 0.4) / (trunk.length - 1);
      at =
          at.plus(
              new Vec3(
                  height * sway * dice.between(-1, 1), height * sway * dice.between(-1, 1), step));
    }
    tube(trunk, habit.trunk(), habit.trunk() * 0.25, 7);
    double golden = Math.PI * (3 - Math.sqrt(5));
    double start = dice.between(0, 6);
    for (int i = 0; i < habit.limbs(); i++) {
      double share = (i + dice.between(0.2, 0.8)) / habit.limbs();
      double z = habit.from() + (trunkTop - habit.from()) * share;
      limb(pointOn(trunk, (z + 0.4) / (trunkTop + 0.4)), share, start + i * golden);
    }
  }

  private static Vec3 pointOn(Vec3[] line, double share) {
    double at = Math.max(0, Math.min(0.9999, share)) * (line.length - 1);
    int i = (int) at;
    return line[i].mix(line[i + 1], at - i);
  }

  private double reach(double share) {
    double profile =
        switch (kind) {
          case POPLAR -> 0.45 + 0.75 * Math.sin(Math.PI * Math.pow(share, 0.7)) - 0.25 * share;
          case CYPRESS -> 0.35 + 0.75 * Math.sin(Math.PI * Math.pow(share, 0.55)) - 0.2 * share;
          case SHRUB -> 0.7 + 0.3 * dice.unit();
          default -> 0.55 + 0.5 * Math.sin(Math.PI * (0.15 + 0.6 * share));
        };
    return habit.reach() * Math.max(0.15, profile) * dice.between(0.8, 1.1);
  }

  private void limb(Vec3 from, double share, double turn) {
    double length = reach(share);
    double rise =
        Math.toRadians(
            habit.riseDeg() + (kind == Tree.Kind.POPLAR ? 12 : 34) * share + dice.between(-9, 9));
    double around = turn + dice.between(-0.35, 0.35);
    Vec3 way =
        new Vec3(
            Math.cos(rise) * Math.cos(around), Math.cos(rise) * Math.sin(around), Math.sin(rise));
    Vec3[] line = new Vec3[6];
    Vec3 at = from;
    double step = length / (line.length - 1);
    for (int i = 0; i < line.length; i++) {
      line[i] = at;
      at = at.plus(way.times(step));
      way =
          way.plus(
                  new Vec3(
                      dice.between(-0.22, 0.22),
                      dice.between(-0.22, 0.22),
                      habit.lift() * 0.5 + dice.between(-0.1, 0.1)))
              .unit();
    }
    double thick = Math.max(0.012, habit.trunk() * 0.32 * length / habit.reach());
    tube(line, thick, thick * 0.25, 4);
    for (int i = 0; i < habit.twigs(); i++) {
      double along = 0.22 + 0.78 * (i + dice.unit()) / habit.twigs();
      twig(pointOn(line, along), way);
    }
  }

  private void twig(Vec3 from, Vec3 limbWay) {
    Vec3 any = new Vec3(dice.between(-1, 1), dice.between(-1, 1), dice.between(-0.8, 1)).unit();
    Vec3 way = limbWay.times(0.7).plus(any).unit();
    double length = habit.twig() * dice.between(0.6, 1.2);
    boolean hangs = kind == Tree.Kind.WILLOW;
    Vec3[] line = new Vec3[4];
    Vec3 at = from;
    for (int i = 0; i < line.length; i++) {
      line[i] = at;
      at = at.plus(way.times(length / (line.length - 1)));
      if (hangs) {
        way = way.plus(new Vec3(0, 0, -0.75)).unit();
      }
    }
    if (coarse == 1) {
      tube(line, 0.011, 0.004, 3);
    } else {
      tube(new Vec3[] {line[0], line[3]}, 0.014, 0.006, 3);
    }
    double share = sheds() ? season.leafShare() : 1;
    if (kind == Tree.Kind.FRUIT && season.blossom()) {
      leaves(line, Surface.BLOSSOM, (int) (habit.leaves() * 0.9), 0.05, 0.05);
    }
    leaves(
        line,
        surface(),
        (int) Math.round(habit.leaves() * share),
        habit.leafLength(),
        habit.leafWidth());
  }

  private void leaves(Vec3[] line, Surface surface, int count, double length, double width) {
    double spread = kind == Tree.Kind.WILLOW ? 0.10 : 0.17 + 0.10 * habit.twig();
    int kept = (count + coarse / 2) / coarse;
    double larger = Math.sqrt(coarse) * 0.95;
    for (int i = 0; i < kept; i++) {
      Vec3 at = pointOn(line, dice.unit());
      Vec3 off =
          new Vec3(dice.between(-1, 1), dice.between(-1, 1), dice.between(-1, 1)).times(spread);
      if (kind == Tree.Kind.WILLOW) {
        Vec3 down = new Vec3(dice.between(-0.4, 0.4), dice.between(-0.4, 0.4), -1).unit();
        PlantShapes.leaf(mesh, dice, surface, at.plus(off), down, length * larger, width * larger);
      } else {
        PlantShapes.diamond(mesh, dice, surface, at.plus(off), length * larger, width * larger);
      }
    }
  }

  private boolean sheds() {
    return kind != Tree.Kind.HOLM_OAK && kind != Tree.Kind.CYPRESS;
  }

  private Surface surface() {
    return switch (kind) {
      case POPLAR -> Surface.LEAF_POPLAR;
      case WILLOW -> Surface.LEAF_WILLOW;
      case HOLM_OAK, CYPRESS -> Surface.LEAF_EVERGREEN;
      case FRUIT -> Surface.LEAF_FRUIT;
      case ASH, SHRUB -> Surface.LEAF_BROAD;
    };
  }

  private void tube(Vec3[] line, double thick, double thin, int sides) {
    Vec3[] before = new Vec3[0];
    Vec3[] beforeNormals = before;
    for (int i = 0; i < line.length; i++) {
      Vec3 way = line[Math.min(line.length - 1, i + 1)].minus(line[Math.max(0, i - 1)]).unit();
      Vec3 right = way.sideways();
      Vec3 other = way.cross(right);
      double radius = thick + (thin - thick) * i / (line.length - 1);
      Vec3[] ring = new Vec3[sides];
      Vec3[] normals = new Vec3[sides];
      for (int k = 0; k < sides; k++) {
        double angle = 2 * Math.PI * k / sides;
        normals[k] = right.times(Math.cos(angle)).plus(other.times(Math.sin(angle)));
        ring[k] = line[i].plus(normals[k].times(radius));
      }
      for (int k = 0; k < sides && before.length > 0; k++) {
        int next = (k + 1) % sides;
        mesh.smoothTriangle(
            Surface.BARK,
            before[k],
            before[next],
            ring[next],
            beforeNormals[k],
            beforeNormals[next],
            normals[next]);
        mesh.smoothTriangle(
            Surface.BARK,
            before[k],
            ring[next],
            ring[k],
            beforeNormals[k],
            normals[next],
            normals[k]);
      }
      before = ring;
      beforeNormals = normals;
    }
  }
}

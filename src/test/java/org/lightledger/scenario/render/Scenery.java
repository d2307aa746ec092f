package org.lightledger.scenario.render;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.lightledger.scenario.Arches;
import org.lightledger.scenario.Barrier;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.Building;
import org.lightledger.scenario.Lines;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.Tree;

/** The town in one season, ready to be looked at from anywhere. Safe for use by several threads. */
final class Scenery {
  private static final int VARIANTS = 2;

  /** Trees nearer than this are drawn leaf by leaf, metres. */
  private static final double FINE_TREES_M = 75;

  private final Brezaluz town;
  private final Season season;
  private final GroundMap map;
  private final List<Placement> fixed = new ArrayList<>();
  private final List<Placement> trees = new ArrayList<>();
  private final List<Placement> distantTrees = new ArrayList<>();
  private final List<Shape> meadow = new ArrayList<>();
  private final List<Shape> sparse = new ArrayList<>();
  private final List<Shape> lawn = new ArrayList<>();
  private final List<Shape> wheat = new ArrayList<>();
  private final List<Shape> reed = new ArrayList<>();

  Scenery(Brezaluz town, Season season, GroundMap map, List<Placement> lasting) {
    this.town = town;
    this.season = season;
    this.map = map;
    fixed.addAll(lasting);
    trees();
    hedges();
    for (int i = 0; i < 3; i++) {
      sparse.add(PlantShapes.grass(season, 0.24, 300, season.flowers() / 4, 80 + i));
      meadow.add(PlantShapes.grass(season, 0.22, 720, season.flowers() / 2, 40 + i));
      lawn.add(PlantShapes.grass(season, 0.075, 800, season.flowers() / 4, 50 + i));
      wheat.add(PlantShapes.wheat(season, 60 + i));
      reed.add(PlantShapes.reed(70 + i));
    }
  }

  /** What does not change with the season: ground, water, buildings, walls. */
  static List<Placement> lasting(Brezaluz town) {
    List<Placement> all = new ArrayList<>();
    for (Shape ring : LandShapes.ground(town.terrain())) {
      all.add(Placement.fixed(ring));
    }
    all.add(Placement.fixed(LandShapes.water(town.river())));
    for (Building b : town.buildings()) {
      Vec3 foot = new Vec3(b.centre().east(), b.centre().north(), town.footUp(b));
      double tint = Noise.hash(b.name().hashCode(), 3, 5);
      all.add(new Placement(BuildingShapes.shape(b), foot, turn(b.axisDeg()), 1, tint));
    }
    for (Arches a : town.arches()) {
      Vec3 foot = new Vec3(a.from().east(), a.from().north(), a.footUp());
      all.add(
          new Placement(MasonryShapes.arches(a), foot, turn(a.from().bearingTo(a.to())), 1, 0.4));
    }
    for (Barrier b : town.barriers()) {
      if (b.kind() == Barrier.Kind.STONE_WALL) {
        all.add(Placement.fixed(MasonryShapes.wall(b, town.terrain())));
      }
    }
    return all;
  }

  private static double turn(double bearingDeg) {
    return Math.toRadians(90 - bearingDeg);
  }

  private void trees() {
    Map<Tree.Kind, List<Shape>> fine = patterns(1);
    Map<Tree.Kind, List<Shape>> coarse = patterns(9);
    Dice dice = new Dice(8);
    for (Tree tree : town.trees()) {
      int variant = dice.below(VARIANTS);
      double scale = tree.heightM() / tree.kind().patternM();
      Placement close =
          standing(fine.getOrDefault(tree.kind(), List.of()).get(variant), tree.at(), dice, scale);
      trees.add(close);
      Shape simple = coarse.getOrDefault(tree.kind(), List.of()).get(variant);
      distantTrees.add(new Placement(simple, close.origin(), close.turnRad(), scale, close.tint()));
    }
  }

  private Map<Tree.Kind, List<Shape>> patterns(int coarse) {
    Map<Tree.Kind, List<Shape>> patterns = new EnumMap<>(Tree.Kind.class);
    for (Tree.Kind kind : Tree.Kind.values()) {
      List<Shape> variants = new ArrayList<>();
      for (int i = 0; i < VARIANTS; i++) {
        variants.add(TreeShapes.grow(kind, season, 100 * kind.ordinal() + i, coarse));
      }
      patterns.put(kind, variants);
    }
    return patterns;
  }

  private Placement standing(Shape shape, Point at, Dice dice, double scale) {
    Vec3 foot = new Vec3(at.east(), at.north(), town.terrain().up(at));
    return new Placement(shape, foot, dice.between(0, 2 * Math.PI), scale, dice.unit());
  }

  private void hedges() {
    List<Shape> variants = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      variants.add(PlantShapes.hedge(Math.max(0.25, season.leafShare()), 90 + i));
    }
    Dice dice = new Dice(9);
    for (Barrier b : town.barriers()) {
      if (b.kind() == Barrier.Kind.HEDGE) {
        Lines.walk(
            b.line(),
            1.7,
            (at, bearing) -> {
              Vec3 foot = new Vec3(at.east(), at.north(), town.terrain().up(at));
              double scale = b.heightM() / 2 * dice.between(0.85, 1.15);
              Shape shape = variants.get(dice.below(variants.size()));
              double turned = turn(bearing) + (dice.unit() < 0.5 ? 0 : Math.PI);
              fixed.add(new Placement(shape, foot, turned, scale, dice.unit()));
            });
      }
    }
  }

  Season season() {
    return season;
  }

  GroundMap map() {
    return map;
  }

  /**
   * The scene before a camera, with grass as far as blades can be told apart, and more to stand.
   */
  Scene before(Point camera, double facingDeg, double halfAngleDeg, List<Placement> more) {
    List<Placement> all = new ArrayList<>(fixed);
    for (int i = 0; i < trees.size(); i++) {
      Vec3 at = trees.get(i).origin();
      double away = Math.hypot(at.x() - camera.east(), at.y() - camera.north());
      all.add(away < FINE_TREES_M ? trees.get(i) : distantTrees.get(i));
    }
    undergrowth(all, camera, facingDeg, halfAngleDeg);
    all.addAll(more);
    return new Scene(all);
  }

  private void undergrowth(
      List<Placement> all, Point camera, double facingDeg, double halfAngleDeg) {
    double reach = 46;
    int e0 = (int) Math.floor(camera.east() - reach);
    int n0 = (int) Math.floor(camera.north() - reach);
    for (int n = n0; n <= n0 + 2 * reach; n++) {
      for (int e = e0; e <= e0 + 2 * reach; e++) {
        Point at = new Point(e + 0.6 * Noise.hash(e, n, 1), n + 0.6 * Noise.hash(e, n, 2));
        double away = camera.to(at);
        double off = Math.abs(Math.IEEEremainder(camera.bearingTo(at) - facingDeg, 360));
        if (away < 0.9 || away > reach || (off > halfAngleDeg && away > 4)) {
          continue;
        }
        patch(all, at, away, new Dice(31L * e + 977L * n));
      }
    }
  }

  private void patch(List<Placement> all, Point at, double away, Dice dice) {
    double patchy = Noise.layers(at.east() / 5, at.north() / 5, 2);
    switch (map.at(at.east(), at.north())) {
      case WILD, MEADOW, ORCHARD -> {
        if (away < 34) {
          plant(all, away < 15 ? meadow : sparse, at, dice, 0.65 + 0.8 * patchy);
        }
      }
      case LAWN -> {
        if (away < 26) {
          plant(all, lawn, at, dice, 0.8 + 0.4 * patchy);
        }
      }
      case WHEAT -> plant(all, wheat, at, dice, 0.92 + 0.16 * patchy);
      case TRACK, EARTH -> {
        if (away < 26 && patchy > 0.52) {
          plant(all, lawn, at, dice, 0.8 + 0.5 * patchy);
        }
      }
      case BANK -> {
        double rare = Noise.layers(at.east() / 9 + 4, at.north() / 9, 2);
        if (rare > 0.47 && away > 5) {
          plant(all, reed, at, dice, 0.75 + 0.4 * patchy);
        } else if (away < 34) {
          plant(all, away < 15 ? meadow : sparse, at, dice, 0.7 + 0.9 * patchy);
        }
      }
      case REEDS -> plant(all, reed, at, dice, 0.8 + 0.4 * patchy);
      case PEBBLES -> {
        double level = town.terrain().up(at);
        double rare = Noise.layers(at.east() / 9 + 4, at.north() / 9, 2);
        if (level > -0.25 && level < 0.3 && rare > 0.5 && away > 7) {
          plant(all, reed, at, dice, 0.85 + 0.4 * patchy);
        }
      }
      case PAVED, GRAVEL -> {}
    }
  }

  private void plant(List<Placement> all, List<Shape> shapes, Point at, Dice dice, double scale) {
    all.add(standing(shapes.get(dice.below(shapes.size())), at, dice, scale));
  }
}

package org.lightledger.scenario;

import java.util.ArrayList;
import java.util.List;
import org.lightledger.scenario.Tree.Kind;
import org.lightledger.scenario.render.Dice;
import org.lightledger.scenario.render.Noise;

/** Where the trees stand: planted rows, the river's banks, and scattered over the land. */
final class Planting {
  private final River river;
  private final List<Building> buildings;
  private final List<Street> streets;
  private final List<Field> fields;
  private final List<Spot> spots;
  private final List<Tree> trees = new ArrayList<>();
  private final Dice dice = new Dice(5);

  Planting(
      River river,
      List<Building> buildings,
      List<Street> streets,
      List<Field> fields,
      List<Spot> spots) {
    this.river = river;
    this.buildings = buildings;
    this.streets = streets;
    this.fields = fields;
    this.spots = spots;
  }

  List<Tree> trees() {
    avenue();
    orchard();
    garden();
    riverside();
    hill();
    scattered();
    return List.copyOf(trees);
  }

  private void plant(Kind kind, Point at, double heightM) {
    trees.add(new Tree(kind, at, heightM));
  }

  private void avenue() {
    Point start = new Point(-15, -169);
    for (int i = 0; i < 46; i++) {
      for (int side = -1; side <= 1; side += 2) {
        Point at = start.along(230, 4 + 8.0 * i + dice.between(-0.4, 0.4)).along(140, side * 5.2);
        plant(Kind.POPLAR, at, dice.between(13.5, 17.5));
      }
    }
  }

  private void orchard() {
    Point middle = new Point(150, -290);
    for (int row = -5; row <= 4; row++) {
      for (int i = -8; i <= 8; i++) {
        Point at =
            middle.along(215, 5.2 * i + dice.between(-0.3, 0.3)).along(125, 5.8 * (row + 0.5));
        plant(Kind.FRUIT, at, dice.between(3.6, 4.6));
      }
    }
  }

  private void garden() {
    Point wall = new Point(229, 22);
    plant(Kind.CYPRESS, wall.along(30, 11).along(120, 2.2), 8.4);
    plant(Kind.CYPRESS, wall.along(30, 21).along(120, 2.2), 7.6);
    plant(Kind.FRUIT, wall.along(30, 26).along(120, 6), 4.4);
    plant(Kind.SHRUB, wall.along(30, 4).along(120, 2.0), 1.5);
    plant(Kind.SHRUB, wall.along(30, 15.5).along(120, 1.8), 1.3);
    plant(Kind.SHRUB, wall.along(30, 28).along(120, 14), 1.7);
    plant(Kind.ASH, new Point(-165, -75).along(251, 44), 10);
    plant(Kind.WILLOW, new Point(-165, -75).along(257, 62), 8.5);
    plant(Kind.ASH, new Point(-256, -107).along(221, 46), 9.5);
    plant(Kind.HOLM_OAK, new Point(38, -424).along(232, 78), 8);
    plant(Kind.HOLM_OAK, Terrain.HILL.along(228, 21), 5.5);
    plant(Kind.HOLM_OAK, Terrain.HILL.along(273, 34), 6.5);
    plant(Kind.ASH, new Point(83, -6), 8.5);
    plant(Kind.ASH, new Point(143, -14), 8);
    plant(Kind.ASH, new Point(131, -15), 7);
    plant(Kind.ASH, new Point(284, 60), 11);
    plant(Kind.ASH, new Point(325, 112), 10);
    plant(Kind.CYPRESS, new Point(303, 137), 9);
    plant(Kind.CYPRESS, new Point(318, 119), 8.2);
    plant(Kind.ASH, new Point(341, -316), 12);
    plant(Kind.ASH, new Point(338, -347), 10);
    plant(Kind.HOLM_OAK, new Point(-8, 168), 6);
    plant(Kind.ASH, new Point(66, -62), 9);
    plant(Kind.ASH, new Point(128, -58), 9.5);
  }

  private void riverside() {
    Lines.walk(
        river.course(),
        7,
        (place, bearing) -> {
          if (Math.hypot(place.east(), place.north()) > 1500) {
            return;
          }
          for (int side = -1; side <= 1; side += 2) {
            if (dice.unit() < (side < 0 ? 0.30 : 0.62)) {
              continue;
            }
            Point at = place.along(bearing + 90, -side * dice.between(11.5, 19));
            double kind = dice.unit();
            Kind chosen = kind < 0.38 ? Kind.WILLOW : kind < 0.62 ? Kind.ASH : Kind.SHRUB;
            Kind grown = kind > 0.88 ? Kind.POPLAR : chosen;
            double height = grown.patternM() * dice.between(0.75, 1.2);
            if (isFree(at, 4) && !inView(at, 26)) {
              plant(grown, at, height);
            }
          }
        });
  }

  private void hill() {
    for (int i = 0; i < 420; i++) {
      Point at = Terrain.HILL.along(dice.between(0, 360), 60 + 420 * Math.sqrt(dice.unit()));
      if (isFree(at, 5) && !inView(at, 45)) {
        plant(Kind.HOLM_OAK, at, dice.between(4, 8));
      }
    }
  }

  private void scattered() {
    for (int i = 0; i < 5200; i++) {
      double reach = 2600 * Math.sqrt(dice.unit());
      Point at = new Point(0, 0).along(dice.between(0, 360), reach);
      boolean grove = Noise.layers(at.east() / 210, at.north() / 210, 2) > 0.50;
      if (!isFree(at, 6) || inView(at, 48) || (!grove && dice.unit() < 0.8)) {
        continue;
      }
      double kind = dice.unit();
      Kind chosen = kind < 0.45 ? Kind.HOLM_OAK : kind < 0.8 ? Kind.ASH : Kind.SHRUB;
      Kind grown = kind > 0.95 ? Kind.POPLAR : chosen;
      plant(grown, at, grown.patternM() * dice.between(0.7, 1.2));
    }
  }

  private boolean isFree(Point at, double clearM) {
    if (river.distance(at) < river.widthM() / 2 + 2) {
      return false;
    }
    for (Street street : streets) {
      if (Lines.distance(street.line(), at) < street.widthM() / 2 + clearM * 0.6) {
        return false;
      }
    }
    for (Field field : fields) {
      if (Lines.inside(field.outline(), at)) {
        return false;
      }
    }
    for (Building building : buildings) {
      if (at.to(building.centre()) < building.lengthM() / 2 + clearM) {
        return false;
      }
    }
    for (Spot spot : spots) {
      if (at.to(spot.at()) < 13 + clearM) {
        return false;
      }
    }
    return true;
  }

  /** Whether a tree would stand in a spot's background, closer than a distance. */
  private boolean inView(Point at, double closerM) {
    for (Spot spot : spots) {
      for (double facing : spot.facingsDeg()) {
        Point camera = spot.at().along(facing, -7);
        double off = Math.abs(Math.IEEEremainder(camera.bearingTo(at) - facing, 360));
        if (off < 26 && camera.to(at) < closerM) {
          return true;
        }
      }
    }
    return false;
  }
}

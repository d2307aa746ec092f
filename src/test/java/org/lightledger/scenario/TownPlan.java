package org.lightledger.scenario;

import java.util.ArrayList;
import java.util.List;
import org.lightledger.scenario.Building.Kind;
import org.lightledger.scenario.render.Dice;

/** Where the river runs and what was built. */
final class TownPlan {
  private TownPlan() {}

  static River river() {
    List<Point> course =
        List.of(
            new Point(2600, 3300),
            new Point(1500, 2000),
            new Point(900, 1200),
            new Point(420, 640),
            new Point(120, 260),
            new Point(-140, 60),
            new Point(-330, -160),
            new Point(-600, -300),
            new Point(-1000, -640),
            new Point(-1700, -820),
            new Point(-3200, -1700));
    return new River("Río Ansarel", Lines.rounded(course, 3), 16);
  }

  static List<Building> buildings() {
    List<Building> all = new ArrayList<>();
    all.add(
        new Building("San Telmoro Church", Kind.CHURCH, new Point(118, 4), 78, 24, 11, 8, 11.5));
    all.add(
        new Building("San Telmoro Tower", Kind.TOWER, new Point(101, 0.5), 78, 6.4, 6.4, 19, 22));
    all.add(
        new Building("Old Cloth Hall", Kind.ARCADED, new Point(24, -58.5), 108, 27, 9, 8.2, 10.8));
    all.add(new Building("Ansarel Mill", Kind.MILL, new Point(10, 152), 52, 15, 8.5, 6.2, 9));
    all.add(new Building("Loma Barn", Kind.BARN, new Point(326, -329), 18, 17, 9, 4.8, 8));
    all.add(
        new Building("Chapel of the Loma", Kind.CHURCH, new Point(309, 127), 55, 13, 7, 5.4, 8.6));
    all.add(new Building("Washing Place", Kind.SHED, new Point(101, 198), 52, 9, 5, 2.7, 4.2));
    alley(all);
    streetRow(all);
    outskirts(all);
    return List.copyOf(all);
  }

  private static void alley(List<Building> all) {
    Point start = new Point(216, -80);
    double axis = 240;
    double[] lengths = {11, 9, 12, 10, 13};
    for (int side = -1; side <= 1; side += 2) {
      double at = side < 0 ? 0 : 2;
      for (int i = 0; i < lengths.length; i++) {
        double length = lengths[side < 0 ? i : lengths.length - 1 - i];
        double depth = 7.5 + i % 2;
        Point centre =
            start.along(axis, at + length / 2).along(axis + 90, side * (1.9 + depth / 2));
        double eaves = 5.2 + 0.9 * ((i * 7 + side + 1) % 3);
        Kind kind = (i + side) % 3 == 0 ? Kind.STONE_HOUSE : Kind.HOUSE;
        all.add(
            new Building(
                "Tinajo Alley " + (i * 2 + (side < 0 ? 1 : 2)),
                kind,
                centre,
                axis - 180,
                length,
                depth,
                eaves,
                eaves + 2.4));
        at += length + 0.02;
      }
    }
  }

  private static void streetRow(List<Building> all) {
    Dice dice = new Dice(11);
    double[][] plots = {
      {-62, 33, 113},
      {-40, 24, 113},
      {-18, 13, 114},
      {4, 3, 114},
      {26, -7, 113},
      {48, -15, 110},
      {-70, 8, 113},
      {-48, -1, 113},
      {-24, -11, 113},
      {160, -26, 101},
      {184, -31, 101},
      {208, -37, 101},
      {234, -44, 99},
      {262, -49, 98},
      {150, -66, 101},
      {174, -71, 101},
      {236, -72, 99},
      {262, -76, 98},
      {292, -83, 97},
      {322, -86, 97},
      {66, -84, 100},
      {90, -90, 98},
      {116, -92, 98},
      {141, -40, 10},
      {60, 26, 20},
      {76, 44, 100},
      {100, 52, 98},
      {126, 55, 98},
      {150, 40, 10},
      {164, 10, 100},
      {188, 4, 100}
    };
    int number = 1;
    for (double[] plot : plots) {
      double eaves = dice.between(4.8, 7.2);
      double length = dice.between(11, 15);
      Kind kind = dice.unit() < 0.35 ? Kind.STONE_HOUSE : Kind.HOUSE;
      all.add(
          new Building(
              "Calle Ansarel " + number++,
              kind,
              new Point(plot[0], plot[1]),
              plot[2] % 180,
              length,
              dice.between(7, 8.5),
              eaves,
              eaves + dice.between(1.9, 2.7)));
    }
  }

  private static void outskirts(List<Building> all) {
    double[][] farms = {
      {-230, 210, 60, 14, 8, 4.5}, {-300, 260, 140, 11, 7, 4.0}, {-420, -560, 20, 16, 8, 4.6},
      {-720, -120, 75, 15, 8, 4.6}, {-690, -95, 160, 9, 7, 3.6}, {360, 250, 120, 14, 8, 5.2},
      {470, 60, 30, 13, 8, 5.0}, {560, -20, 100, 15, 8, 4.8}, {-60, -640, 95, 18, 9, 4.6},
      {-960, 150, 50, 15, 9, 5}, {180, 420, 70, 13, 8, 4.8}
    };
    int number = 1;
    for (double[] f : farms) {
      all.add(
          new Building(
              "Loma farm " + number++,
              number % 2 == 0 ? Kind.STONE_HOUSE : Kind.HOUSE,
              new Point(f[0], f[1]),
              f[2],
              f[3],
              f[4],
              f[5],
              f[5] + 2.4));
    }
  }

  static List<Arches> arches(double hallFootUp) {
    Point north = new Point(-153.0, 71.2);
    Point south = new Point(-127.0, 48.8);
    Point front = new Point(24, -58.5).along(18, 6.9);
    return List.of(
        new Arches("Ansarel Bridge", north, south, 5.2, 3, 2.0, -2.0, 1.0, 2.7, 3.2, 2.2, 0.9),
        new Arches(
            "Cloth Hall arcade",
            front.along(288, 13.5),
            front.along(108, 13.5),
            0.55,
            8,
            0.62,
            hallFootUp,
            2.7,
            1.3,
            hallFootUp + 4.3,
            0,
            0));
  }

  static List<Barrier> barriers() {
    Point corner = new Point(229, 22);
    Point b = corner.along(30, 30);
    Point c = b.along(120, 36);
    Point d = c.along(210, 30);
    Point lane = new Point(590, -142);
    Point left = lane.along(165, 2.9);
    Point right = lane.along(345, 2.9);
    return List.of(
        new Barrier(
            "Garden wall",
            Barrier.Kind.STONE_WALL,
            List.of(d.along(300, 15), d, c, b, corner, corner.along(120, 16)),
            2.7,
            0.5),
        new Barrier(
            "Lane hedge south", Barrier.Kind.HEDGE, List.of(left, left.along(255, 290)), 2.1, 1.4),
        new Barrier(
            "Lane hedge north",
            Barrier.Kind.HEDGE,
            List.of(right, right.along(255, 290)),
            1.9,
            1.4),
        new Barrier(
            "Hill fold",
            Barrier.Kind.STONE_WALL,
            List.of(new Point(-668, 556), new Point(-640, 522), new Point(-600, 512)),
            1.0,
            0.6),
        new Barrier(
            "Orchard wall",
            Barrier.Kind.STONE_WALL,
            List.of(new Point(210, -245), new Point(100, -390), new Point(40, -366)),
            1.1,
            0.5));
  }

  static List<Street> streets() {
    return List.of(
        new Street(
            "Calle Ansarel",
            Street.Kind.PAVED,
            List.of(
                new Point(-127, 48.8),
                new Point(-60, 20),
                new Point(30, -24),
                new Point(95, -42),
                new Point(200, -53),
                new Point(420, -82),
                new Point(590, -142)),
            6.5),
        new Street(
            "Bridge road",
            Street.Kind.GRAVEL,
            List.of(new Point(-153, 71.2), new Point(-240, 150), new Point(-560, 330)),
            4.5),
        new Street(
            "Tinajo Alley",
            Street.Kind.PAVED,
            List.of(new Point(230, -72), new Point(216, -80).along(240, 66)),
            3.8),
        new Street(
            "Poplar Avenue",
            Street.Kind.GRAVEL,
            List.of(new Point(-15, -169), new Point(-15, -169).along(230, 380)),
            4.6),
        new Street(
            "Lane of the hedges",
            Street.Kind.TRACK,
            List.of(new Point(590, -142), new Point(590, -142).along(255, 290)),
            3.0),
        new Street(
            "Mill path",
            Street.Kind.TRACK,
            List.of(new Point(-60, 30), new Point(28, 128), new Point(112, 190)),
            2.2),
        new Street(
            "Chapel path",
            Street.Kind.TRACK,
            List.of(new Point(200, -50), new Point(262, 90), new Point(300, 120)),
            2.0),
        new Street(
            "Hill path",
            Street.Kind.TRACK,
            List.of(new Point(-560, 330), new Point(-640, 470), new Point(-650, 510)),
            1.2));
  }

  static List<Field> fields() {
    Point rows = new Point(150, -290);
    return List.of(
        square("Market Square", Field.Use.PAVED, new Point(98, -44), 98, 62, 44),
        square("Cloth Hall walk", Field.Use.PAVED, new Point(24, -52), 108, 34, 14),
        square("Mill yard", Field.Use.EARTH, new Point(18, 141), 52, 26, 13),
        square("Barn yard", Field.Use.EARTH, new Point(312, -325), 18, 26, 20),
        square("Chapel forecourt", Field.Use.PAVED, new Point(299, 120), 55, 12, 8),
        square("Walled garden", Field.Use.LAWN, new Point(250, 26), 120, 36, 30),
        square("Orchard", Field.Use.ORCHARD, rows, 35, 90, 60),
        square("Ansar Meadow", Field.Use.MEADOW, new Point(-190, -95), 40, 170, 90),
        square("Reed bed", Field.Use.REEDS, new Point(-256, -107).along(258, 15), 41, 36, 9),
        square("Wheat of the Loma", Field.Use.WHEAT, new Point(-50, -470), 62, 194, 130),
        square("Far wheat", Field.Use.WHEAT, new Point(520, -260), 75, 200, 110),
        square("Bridge shore", Field.Use.PEBBLES, new Point(-139, 34), 40, 26, 12));
  }

  private static Field square(
      String name, Field.Use use, Point centre, double axisDeg, double lengthM, double widthM) {
    Building outline = new Building(name, Kind.SHED, centre, axisDeg, lengthM, widthM, 0, 0);
    return new Field(name, use, outline.outline());
  }
}

package org.lightledger.scenario.render;

import java.util.List;
import org.lightledger.scenario.Field;
import org.lightledger.scenario.Lines;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.River;
import org.lightledger.scenario.Street;

/** What the ground is made of, on a raster of half metres, two kilometres wide about the origin. */
final class GroundMap {
  /** Kinds of ground. */
  enum Ground {
    WILD,
    MEADOW,
    LAWN,
    ORCHARD,
    WHEAT,
    PAVED,
    GRAVEL,
    TRACK,
    EARTH,
    PEBBLES,
    REEDS,
    BANK
  }

  private static final Ground[] ALL = Ground.values();
  private static final double CELL_M = 0.5;
  private static final int HALF = 2000;

  private final byte[] cells = new byte[4 * HALF * HALF];

  GroundMap(River river, List<Street> streets, List<Field> fields) {
    along(river.course(), river.widthM() / 2 + 2.4, Ground.BANK);
    for (Field field : fields) {
      fill(field.outline(), ground(field.use()));
    }
    for (Street street : streets) {
      along(street.line(), street.widthM() / 2, ground(street.kind()));
    }
    along(river.course(), river.widthM() / 2 + 0.6, Ground.PEBBLES);
  }

  private static Ground ground(Field.Use use) {
    return switch (use) {
      case MEADOW -> Ground.MEADOW;
      case LAWN -> Ground.LAWN;
      case WHEAT -> Ground.WHEAT;
      case PAVED -> Ground.PAVED;
      case EARTH -> Ground.EARTH;
      case ORCHARD -> Ground.ORCHARD;
      case PEBBLES -> Ground.PEBBLES;
      case REEDS -> Ground.REEDS;
    };
  }

  private static Ground ground(Street.Kind kind) {
    return switch (kind) {
      case PAVED -> Ground.PAVED;
      case GRAVEL -> Ground.GRAVEL;
      case TRACK -> Ground.TRACK;
    };
  }

  private static int cell(double metres) {
    return Math.max(0, Math.min(2 * HALF - 1, (int) Math.floor(metres / CELL_M) + HALF));
  }

  private static double middle(int cell) {
    return (cell - HALF + 0.5) * CELL_M;
  }

  private void along(List<Point> line, double reachM, Ground ground) {
    for (int s = 1; s < line.size(); s++) {
      List<Point> piece = line.subList(s - 1, s + 1);
      Point a = piece.get(0);
      Point b = piece.get(1);
      int e0 = cell(Math.min(a.east(), b.east()) - reachM);
      int e1 = cell(Math.max(a.east(), b.east()) + reachM);
      int n0 = cell(Math.min(a.north(), b.north()) - reachM);
      int n1 = cell(Math.max(a.north(), b.north()) + reachM);
      for (int n = n0; n <= n1; n++) {
        for (int e = e0; e <= e1; e++) {
          if (Lines.distance(piece, new Point(middle(e), middle(n))) <= reachM) {
            cells[n * 2 * HALF + e] = (byte) ground.ordinal();
          }
        }
      }
    }
  }

  private void fill(List<Point> outline, Ground ground) {
    int e0 = cell(outline.stream().mapToDouble(Point::east).min().orElseThrow());
    int e1 = cell(outline.stream().mapToDouble(Point::east).max().orElseThrow());
    int n0 = cell(outline.stream().mapToDouble(Point::north).min().orElseThrow());
    int n1 = cell(outline.stream().mapToDouble(Point::north).max().orElseThrow());
    for (int n = n0; n <= n1; n++) {
      for (int e = e0; e <= e1; e++) {
        if (Lines.inside(outline, new Point(middle(e), middle(n)))) {
          cells[n * 2 * HALF + e] = (byte) ground.ordinal();
        }
      }
    }
  }

  Ground at(double east, double north) {
    double edge = HALF * CELL_M - 1;
    if (!(Math.abs(east) < edge && Math.abs(north) < edge)) {
      return Ground.WILD;
    }
    return ALL[cells[cell(north) * 2 * HALF + cell(east)]];
  }
}

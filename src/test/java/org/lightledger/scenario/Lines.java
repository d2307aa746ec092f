package org.lightledger.scenario;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;

/** Lines of several places. */
public final class Lines {
  private Lines() {}

  /** Metres from a place to the nearest part of a line. */
  public static double distance(List<Point> line, Point place) {
    double best = Double.POSITIVE_INFINITY;
    for (int i = 1; i < line.size(); i++) {
      best = Math.min(best, place.toLine(line.get(i - 1), line.get(i)));
    }
    return best;
  }

  /** Rounds a line's corners (Chaikin 1974), keeping its ends. */
  public static List<Point> rounded(List<Point> line, int times) {
    List<Point> current = line;
    for (int t = 0; t < times; t++) {
      List<Point> next = new ArrayList<>();
      next.add(current.get(0));
      for (int i = 1; i < current.size(); i++) {
        Point a = current.get(i - 1);
        Point b = current.get(i);
        next.add(between(a, b, 0.25));
        next.add(between(a, b, 0.75));
      }
      next.add(current.get(current.size() - 1));
      current = next;
    }
    return List.copyOf(current);
  }

  private static Point between(Point a, Point b, double share) {
    return new Point(
        a.east() + (b.east() - a.east()) * share, a.north() + (b.north() - a.north()) * share);
  }

  /** Walks a line in even steps, telling each place and the line's bearing there, degrees. */
  public static void walk(List<Point> line, double stepM, BiConsumer<Point, Double> visitor) {
    double carried = 0;
    for (int i = 1; i < line.size(); i++) {
      Point a = line.get(i - 1);
      Point b = line.get(i);
      double length = a.to(b);
      double bearing = a.bearingTo(b);
      double at = carried;
      while (at < length) {
        visitor.accept(a.along(bearing, at), bearing);
        at += stepM;
      }
      carried = at - length;
    }
  }

  /** Whether a place lies inside a closed outline (even-odd rule). */
  public static boolean inside(List<Point> outline, Point place) {
    boolean in = false;
    for (int i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
      Point a = outline.get(i);
      Point b = outline.get(j);
      if (a.north() > place.north() != b.north() > place.north()
          && place.east()
              < (b.east() - a.east()) * (place.north() - a.north()) / (b.north() - a.north())
                  + a.east()) {
        in = !in;
      }
    }
    return in;
  }

  /** The place on the straight line between two others that is nearest to a place. */
  public static Point foot(Point a, Point b, Point place) {
    double dx = b.east() - a.east();
    double dy = b.north() - a.north();
    double t =
        ((place.east() - a.east()) * dx + (place.north() - a.north()) * dy) / (dx * dx + dy * dy);
    return between(a, b, Math.max(0, Math.min(1, t)));
  }

  /** A line that runs beside another one, metres to its right; negative to its left. */
  public static List<Point> beside(List<Point> line, double rightM) {
    List<Point> beside = new ArrayList<>();
    for (int i = 0; i < line.size(); i++) {
      Point before = line.get(Math.max(0, i - 1));
      Point after = line.get(Math.min(line.size() - 1, i + 1));
      beside.add(line.get(i).along(before.bearingTo(after) + 90, rightM));
    }
    return beside;
  }

  /** An ellipse as an outline, its longer half axis to the east. */
  public static List<Point> around(Point middle, double halfEastM, double halfNorthM, int corners) {
    List<Point> outline = new ArrayList<>();
    for (int i = 0; i < corners; i++) {
      double angle = 2 * Math.PI * i / corners;
      outline.add(
          new Point(
              middle.east() + halfEastM * Math.cos(angle),
              middle.north() + halfNorthM * Math.sin(angle)));
    }
    return outline;
  }
}

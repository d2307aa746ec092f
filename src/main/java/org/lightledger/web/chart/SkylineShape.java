package org.lightledger.web.chart;

import java.util.EnumSet;
import java.util.Locale;
import java.util.Set;
import java.util.function.IntToDoubleFunction;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.sun.SunDirection;

/**
 * The skyline as a silhouette in the chart of the sun's paths. What is known is filled; where the
 * skyline may be higher than drawn it is hatched under a broken edge; where nothing is known the
 * whole height is dotted. A thin band about the edge is one standard deviation wide to either side.
 */
public final class SkylineShape {

  /** What is known between two steps. */
  public enum Knowledge {
    /** The skyline, as far as its sources can tell. */
    KNOWN,
    /** A lower bound: the skyline may be higher. */
    LOWER_BOUND,
    /** Nothing. */
    NOT_KNOWN
  }

  private static final double HATCH_STEP = 5;
  private static final double DOTS_STEP = 9;

  /** A band thinner than this is not seen; drawing units. */
  private static final double THINNEST_BAND = 1.2;

  private final Skyline skyline;
  private final ChartScale scale;
  private final int firstTurn;
  private final int turns;

  SkylineShape(Skyline skyline, ChartScale scale) {
    this.skyline = skyline;
    this.scale = scale;
    this.firstTurn = (int) Math.ceil(-scale.halfSpanDeg() / Skyline.STEP_DEG);
    this.turns = (int) Math.floor(scale.halfSpanDeg() / Skyline.STEP_DEG) - firstTurn;
  }

  /**
   * What is known of a skyline from one step to the next.
   *
   * @param skyline the skyline
   * @param step from 0 to 719
   * @return the lesser knowledge of both
   */
  public static Knowledge between(Skyline skyline, int step) {
    int next = (step + 1) % Skyline.STEPS;
    if (skyline.source(step) == SkylineSource.NOT_KNOWN
        || skyline.source(next) == SkylineSource.NOT_KNOWN) {
      return Knowledge.NOT_KNOWN;
    }
    return skyline.lowerBoundOnly(step) || skyline.lowerBoundOnly(next)
        ? Knowledge.LOWER_BOUND
        : Knowledge.KNOWN;
  }

  /**
   * What is known anywhere around.
   *
   * @param skyline the skyline
   * @return every knowledge that occurs
   */
  public static Set<Knowledge> around(Skyline skyline) {
    Set<Knowledge> found = EnumSet.noneOf(Knowledge.class);
    for (int step = 0; step < Skyline.STEPS; step++) {
      found.add(between(skyline, step));
    }
    return found;
  }

  /** Whether something known hides the sun. */
  boolean hides(SunDirection sun) {
    double azimuthDeg = sun.azimuth().trueDeg();
    return skyline.knownAt(azimuthDeg)
        && sun.apparentAltitudeDeg() <= skyline.altitudeDegAt(azimuthDeg);
  }

  void draw(Drawing drawing) {
    int from = 0;
    for (int i = 1; i <= turns; i++) {
      if (i == turns || knowledge(i) != knowledge(from)) {
        run(drawing, knowledge(from), from, i);
        from = i;
      }
    }
  }

  private Knowledge knowledge(int turn) {
    return between(skyline, step(turn));
  }

  private int step(int turn) {
    int middle = (int) Math.round(scale.middleDeg() / Skyline.STEP_DEG);
    return Math.floorMod(middle + firstTurn + turn, Skyline.STEPS);
  }

  private double x(int turn) {
    return scale.xOfTurn((firstTurn + turn) * Skyline.STEP_DEG);
  }

  private double y(double altitudeDeg) {
    return scale.y(Math.max(scale.lowDeg(), Math.min(scale.highDeg(), altitudeDeg)));
  }

  private void run(Drawing drawing, Knowledge knowledge, int from, int to) {
    if (knowledge == Knowledge.NOT_KNOWN) {
      uprights(drawing, "sky-void", from, to, DOTS_STEP, turn -> scale.top());
      return;
    }
    String edge = line(from, to, turn -> y(skyline.altitudeDeg(step(turn))));
    String area = edge + String.format(Locale.ROOT, "V%.1fH%.1fZ", scale.bottom(), x(from));
    if (knowledge == Knowledge.KNOWN) {
      drawing.path("sky-land", area);
    } else {
      drawing.path("sky-land sky-part", area);
      uprights(
          drawing, "sky-hatch", from, to, HATCH_STEP, turn -> y(skyline.altitudeDeg(step(turn))));
    }
    band(drawing, from, to);
    drawing.path(knowledge == Knowledge.KNOWN ? "sky-edge" : "sky-edge sky-edge-part", edge);
  }

  private void band(Drawing drawing, int from, int to) {
    IntToDoubleFunction upper =
        turn -> y(skyline.altitudeDeg(step(turn)) + skyline.uncertaintyDeg(step(turn)));
    IntToDoubleFunction lower =
        turn -> y(skyline.altitudeDeg(step(turn)) - skyline.uncertaintyDeg(step(turn)));
    double widest = 0;
    for (int turn = from; turn <= to; turn++) {
      widest = Math.max(widest, lower.applyAsDouble(turn) - upper.applyAsDouble(turn));
    }
    if (widest < THINNEST_BAND) {
      return;
    }
    StringBuilder data = new StringBuilder(line(from, to, upper));
    for (int turn = to; turn >= from; turn--) {
      data.append(String.format(Locale.ROOT, "L%.1f %.1f", x(turn), lower.applyAsDouble(turn)));
    }
    drawing.path("sky-band", data.append('Z').toString());
  }

  private String line(int from, int to, IntToDoubleFunction y) {
    StringBuilder data = new StringBuilder();
    for (int turn = from; turn <= to; turn++) {
      data.append(turn == from ? 'M' : 'L')
          .append(Drawing.tenths(x(turn)))
          .append(' ')
          .append(Drawing.tenths(y.applyAsDouble(turn)));
    }
    return data.toString();
  }

  /** Upright strokes from the foot of the plot, evenly spread over the whole plot. */
  private void uprights(
      Drawing drawing, String cssClass, int from, int to, double every, IntToDoubleFunction top) {
    StringBuilder data = new StringBuilder();
    double last = Double.NEGATIVE_INFINITY;
    for (int turn = from; turn <= to; turn++) {
      double x = x(turn);
      if (x - last >= every) {
        data.append(
            String.format(
                Locale.ROOT, "M%.1f %.1fV%.1f", x, scale.bottom(), top.applyAsDouble(turn)));
        last = x;
      }
    }
    drawing.path(cssClass, data.toString());
  }
}

package org.lightledger.web.chart;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lightledger.geo.Angles;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightRules;
import org.lightledger.spot.Facing;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * The sun's paths over one spot: azimuth to the right, altitude up, the hours of the place's clock
 * on the curves, the sun of each shot as a point, and for every facing a lane that names the light
 * for each azimuth. Azimuth against altitude was chosen over a round sky because portrait light
 * lies in the lowest twenty degrees, which a round sky squeezes into its rim.
 */
public final class SunPathChart {

  /** How much room there is. */
  public enum Size {
    /** A desktop column. */
    WIDE(760, 320, 1),
    /** A phone. */
    NARROW(360, 280, 2);

    final double width;
    final double plotHeight;
    final int hourStep;

    Size(double width, double plotHeight, int hourStep) {
      this.width = width;
      this.plotHeight = plotHeight;
      this.hourStep = hourStep;
    }
  }

  /**
   * What is drawn.
   *
   * @param place the spot's position
   * @param zone the zone of the place
   * @param today the local date of the bold curve
   * @param facings the spot's facings
   * @param shots the suns of its shots
   */
  public record Model(
      GeoPoint place, ZoneId zone, LocalDate today, List<Facing> facings, List<ShotSun> shots) {
    /** Keeps own copies of the lists. */
    public Model {
      facings = List.copyOf(facings);
      shots = List.copyOf(shots);
    }
  }

  /**
   * The sun of one shot.
   *
   * @param href where its point leads
   * @param label what its point says
   * @param sun where the sun stood
   */
  public record ShotSun(String href, String label, SunDirection sun) {}

  private static final double LEFT = 34;
  private static final double TOP = 16;
  private static final double LANE_HEIGHT = 20;
  private static final double LANE_STEP = 40;

  private final Model model;
  private final Size size;
  private final SunPath summer;
  private final SunPath equinox;
  private final SunPath winter;
  private final SunPath today;
  private final ChartScale scale;

  private SunPathChart(SunEphemeris ephemeris, Model model, Size size) {
    this.model = model;
    this.size = size;
    int year = model.today().getYear();
    this.summer = path(ephemeris, LocalDate.of(year, 6, 21));
    this.equinox = path(ephemeris, LocalDate.of(year, 3, 20));
    this.winter = path(ephemeris, LocalDate.of(year, 12, 21));
    this.today = path(ephemeris, model.today());
    this.scale =
        ChartScale.around(
            List.of(summer, equinox, winter),
            model.place().latitudeDeg() >= 0,
            LEFT,
            size.width - 16,
            TOP,
            TOP + size.plotHeight);
  }

  /**
   * Draws the chart.
   *
   * @param ephemeris knows the sun
   * @param id unique in the page
   * @param model what is drawn
   * @param size how much room there is
   * @return the drawing with words for screen readers
   */
  public static Svg draw(SunEphemeris ephemeris, String id, Model model, Size size) {
    return new SunPathChart(ephemeris, model, size).draw(id);
  }

  private SunPath path(SunEphemeris ephemeris, LocalDate day) {
    return SunPath.of(ephemeris, model.place(), model.zone(), day);
  }

  private Svg draw(String id) {
    double height = scale.bottom() + 34 + model.facings().size() * LANE_STEP;
    Drawing drawing =
        Drawing.described(
            "sunpath sunpath-" + size.name().toLowerCase(Locale.ROOT),
            size.width,
            height,
            "group",
            id,
            new Drawing.Words("The sun's paths over this spot", description()));
    grid(drawing);
    curve(drawing, "p-solstice", summer);
    curve(drawing, "p-equinox", equinox);
    curve(drawing, "p-solstice", winter);
    curve(drawing, "p-today", today);
    hours(drawing, "p-hour", summer, false);
    hours(drawing, "p-hour", equinox, false);
    hours(drawing, "p-hour", winter, false);
    hours(drawing, "p-hour p-hour-today", today, true);
    double lane = scale.bottom() + 34;
    for (Facing facing : model.facings()) {
      facingLine(drawing, facing);
      FacingLane.draw(drawing, scale, facing, lane + 14, LANE_HEIGHT);
      lane += LANE_STEP;
    }
    shots(drawing);
    return drawing.finish();
  }

  private void grid(Drawing drawing) {
    double horizon = scale.y(0);
    drawing.rect(
        "p-below", scale.left(), horizon, scale.right() - scale.left(), scale.bottom() - horizon);
    for (int altitudeDeg = 0; altitudeDeg <= scale.highDeg(); altitudeDeg += 10) {
      double y = scale.y(altitudeDeg);
      drawing.line(altitudeDeg == 0 ? "p-horizon" : "p-grid", scale.left(), y, scale.right(), y);
      drawing.text("p-label", scale.left() - 5, y + 4, "end", altitudeDeg + "°");
    }
    int step = size == Size.WIDE ? 15 : 45;
    int span = (int) scale.halfSpanDeg() / step * step;
    for (int turnDeg = -span; turnDeg <= span; turnDeg += step) {
      Bearing azimuth = Bearing.of(scale.middleDeg() + turnDeg);
      double x = scale.xOfTurn(turnDeg);
      drawing.line("p-grid", x, scale.top(), x, scale.bottom());
      boolean labelled = size == Size.NARROW || turnDeg % 45 == 0;
      if (labelled) {
        drawing.text("p-label p-point", x, scale.bottom() + 15, "middle", azimuth.compassPoint());
        drawing.text(
            "p-label",
            x,
            scale.bottom() + 28,
            "middle",
            String.format(Locale.ROOT, "%.0f°", azimuth.trueDeg()));
      }
    }
    if (scale.highDeg() > LightRules.OVERHEAD_ABOVE_DEG) {
      double y = scale.y(LightRules.OVERHEAD_ABOVE_DEG);
      drawing.line("p-overhead", scale.left(), y, scale.right(), y);
      drawing.text("p-note", scale.left() + 6, y - 5, "start", "overhead above here");
    }
  }

  private void curve(Drawing drawing, String cssClass, SunPath path) {
    StringBuilder data = new StringBuilder();
    boolean drawn = false;
    double lastX = 0;
    for (SunDirection point : path.points()) {
      if (!scale.shows(point)) {
        drawn = false;
        continue;
      }
      double x = scale.x(point.azimuth());
      boolean wrapped = drawn && Math.abs(x - lastX) > (scale.right() - scale.left()) / 2;
      data.append(drawn && !wrapped ? 'L' : 'M')
          .append(Drawing.number(x))
          .append(' ')
          .append(Drawing.number(scale.y(point.apparentAltitudeDeg())));
      drawn = true;
      lastX = x;
    }
    if (!data.isEmpty()) {
      drawing.path(cssClass, data.toString());
    }
  }

  private void hours(Drawing drawing, String cssClass, SunPath path, boolean bold) {
    for (SunPath.Hour hour : path.hours()) {
      if (!scale.shows(hour.sun()) || hour.sun().apparentAltitudeDeg() < 0) {
        continue;
      }
      double x = scale.x(hour.sun().azimuth());
      double y = scale.y(hour.sun().apparentAltitudeDeg());
      drawing.circle(cssClass, x, y, bold ? 3.4 : 2);
      boolean labelled = bold || path == summer;
      if (labelled && hour.hour() % size.hourStep == 0) {
        drawing.text(
            bold ? "p-clock p-clock-today" : "p-clock",
            x,
            y - 7,
            "middle",
            String.valueOf(hour.hour()));
      }
    }
  }

  private void facingLine(Drawing drawing, Facing facing) {
    double turnDeg = Angles.turnDeg(scale.middleDeg(), facing.bearing().trueDeg());
    if (Math.abs(turnDeg) <= scale.halfSpanDeg()) {
      double x = scale.xOfTurn(turnDeg);
      drawing.line("p-facing", x, scale.top(), x, scale.bottom());
      drawing.path(
          "p-facing-head",
          String.format(
              Locale.ROOT,
              "M%.1f %.1fL%.1f %.1fL%.1f %.1fZ",
              x - 6,
              scale.top() - 4,
              x + 6,
              scale.top() - 4,
              x,
              scale.top() + 6));
    }
  }

  private void shots(Drawing drawing) {
    for (ShotSun shot : model.shots()) {
      if (scale.shows(shot.sun())) {
        drawing.link(shot.href(), shot.label());
        double x = scale.x(shot.sun().azimuth());
        double y = scale.y(shot.sun().apparentAltitudeDeg());
        drawing.circle("p-target", x, y, 12);
        drawing.path(
            "p-shot",
            String.format(
                Locale.ROOT,
                "M%.1f %.1fL%.1f %.1fL%.1f %.1fL%.1f %.1fZ",
                x,
                y - 6.5,
                x + 6.5,
                y,
                x,
                y + 6.5,
                x - 6.5,
                y));
        drawing.endLink();
      }
    }
  }

  private String description() {
    List<String> sentences = new ArrayList<>();
    sentences.add(
        String.format(
            Locale.ROOT,
            "Highest sun: %.0f degrees on 21 June, %.0f at the equinox, %.0f on 21 December, %.0f"
                + " on %s.",
            summer.highestDeg(),
            equinox.highestDeg(),
            winter.highestDeg(),
            today.highestDeg(),
            model.today()));
    sentences.add(
        model.shots().isEmpty()
            ? "No shot has its sun in the chart."
            : model.shots().size() + " shots are marked where the sun stood.");
    return String.join(" ", sentences);
  }
}

package org.lightledger.web.chart;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Angles;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Skyline;
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
   * @param skyline what stands around the spot; null when nothing is known
   * @param moment the moment that was asked for or planned, or null
   */
  public record Model(
      GeoPoint place,
      ZoneId zone,
      LocalDate today,
      List<Facing> facings,
      List<ShotSun> shots,
      @Nullable Skyline skyline,
      @Nullable Moment moment) {
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

  /**
   * A moment.
   *
   * @param hour the hour of the place's clock, as it is written beside it
   * @param sun where the sun stands then
   */
  public record Moment(String hour, SunDirection sun) {}

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
  private final @Nullable SkylineShape skyline;

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
    Skyline around = model.skyline();
    this.skyline = around == null ? null : new SkylineShape(around, scale);
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
    SunPathGrid.lines(drawing, scale, size);
    if (skyline != null) {
      skyline.draw(drawing);
    }
    SunPathGrid.labels(drawing, scale, size);
    SunLine.draw(drawing, "p-solstice", summer, scale, skyline);
    SunLine.draw(drawing, "p-equinox", equinox, scale, skyline);
    SunLine.draw(drawing, "p-solstice", winter, scale, skyline);
    SunLine.draw(drawing, "p-today", today, scale, skyline);
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
    moment(drawing);
    return drawing.finish();
  }

  private void hours(Drawing drawing, String cssClass, SunPath path, boolean bold) {
    for (SunPath.Hour hour : path.hours()) {
      if (!scale.shows(hour.sun()) || hour.sun().apparentAltitudeDeg() < 0) {
        continue;
      }
      double x = scale.x(hour.sun().azimuth());
      double y = scale.y(hour.sun().apparentAltitudeDeg());
      boolean hidden = skyline != null && skyline.hides(hour.sun());
      drawing.circle(hidden ? cssClass + " p-behind" : cssClass, x, y, bold ? 3.4 : 2);
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

  private void moment(Drawing drawing) {
    Moment moment = model.moment();
    if (moment == null || !scale.shows(moment.sun())) {
      return;
    }
    double x = scale.x(moment.sun().azimuth());
    double y = scale.y(moment.sun().apparentAltitudeDeg());
    boolean left = x > (scale.left() + scale.right()) / 2;
    drawing.circle("p-moment", x, y, 11);
    drawing.circle("p-moment-sun", x, y, 5.5);
    drawing.text(
        "p-moment-hour", left ? x - 16 : x + 16, y + 5, left ? "end" : "start", moment.hour());
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
    Moment moment = model.moment();
    if (moment != null) {
      sentences.add(
          String.format(
              Locale.ROOT,
              "At %s the sun stands at azimuth %.0f degrees, %.1f degrees high.",
              moment.hour(),
              moment.sun().azimuth().trueDeg(),
              moment.sun().apparentAltitudeDeg()));
    }
    sentences.add(
        skyline == null
            ? "No skyline is drawn: none is known."
            : "The skyline is drawn as a silhouette; it is told in words below the chart.");
    return String.join(" ", sentences);
  }
}

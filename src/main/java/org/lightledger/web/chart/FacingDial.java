package org.lightledger.web.chart;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Facing;
import org.lightledger.sun.SunDirection;

/** A compass seen from above, north up: facings as wedges, the sun's direction as a line. */
public final class FacingDial {
  private static final double RADIUS = 42;
  private static final double NARROWEST_WEDGE_DEG = 7;
  private static final Polar POLAR = new Polar(60, 60);

  private FacingDial() {}

  /**
   * The dial of one moment.
   *
   * @param facing where the camera looks
   * @param spreadDeg how far to either side, degrees in [0, 180]
   * @param sun where the sun stands
   * @return the drawing; the same has to stand beside it in words
   */
  public static Svg moment(Bearing facing, double spreadDeg, SunDirection sun) {
    Drawing drawing = rose(Drawing.decorative("dial", 120, 120));
    wedge(drawing, "d-look", facing, spreadDeg);
    sunLine(drawing, sun);
    return drawing.circle("d-centre", 60, 60, 3.5).finish();
  }

  /**
   * The dial of a spot's facings.
   *
   * @param id unique in the page
   * @param facings the facings
   * @param open whether any direction works
   * @param sun where the sun stands, or null to leave it out
   * @return the drawing with words for screen readers
   */
  public static Svg facings(
      String id, List<Facing> facings, boolean open, @Nullable SunDirection sun) {
    Drawing drawing =
        Drawing.described(
            "dial",
            120,
            120,
            "img",
            id,
            new Drawing.Words("Facings, north up", description(facings, open)));
    rose(drawing);
    if (open) {
      drawing.circle("d-open", 60, 60, RADIUS - 3);
    }
    for (Facing facing : facings) {
      wedge(
          drawing,
          facing.origin() == Facing.Origin.OWNER ? "d-look d-own" : "d-look",
          facing.bearing(),
          facing.spreadDeg());
    }
    if (sun != null) {
      sunLine(drawing, sun);
    }
    return drawing.circle("d-centre", 60, 60, 3.5).finish();
  }

  private static String description(List<Facing> facings, boolean open) {
    StringBuilder text = new StringBuilder();
    if (open) {
      text.append("Open: any direction works. ");
    }
    if (facings.isEmpty()) {
      text.append("No facing is known.");
    }
    for (Facing facing : facings) {
      text.append(
          String.format(
              Locale.ROOT,
              "%s, %.0f degrees, good for %.0f degrees to either side. ",
              facing.bearing().compassPoint(),
              facing.bearing().trueDeg(),
              facing.spreadDeg()));
    }
    return text.toString().strip();
  }

  private static Drawing rose(Drawing drawing) {
    drawing.circle("d-ring", 60, 60, RADIUS);
    for (int angleDeg = 0; angleDeg < 360; angleDeg += 15) {
      double length = angleDeg % 90 == 0 ? 7 : angleDeg % 45 == 0 ? 5 : 2.5;
      drawing.line(
          "d-tick",
          POLAR.x(angleDeg, RADIUS),
          POLAR.y(angleDeg, RADIUS),
          POLAR.x(angleDeg, RADIUS - length),
          POLAR.y(angleDeg, RADIUS - length));
    }
    return drawing
        .text("d-point", 60, 13, "middle", "N")
        .text("d-point", 111, 64, "middle", "E")
        .text("d-point", 60, 116, "middle", "S")
        .text("d-point", 9, 64, "middle", "W");
  }

  private static void wedge(Drawing drawing, String cssClass, Bearing facing, double spreadDeg) {
    double half = Math.max(spreadDeg, NARROWEST_WEDGE_DEG);
    drawing.path(
        cssClass, POLAR.sector(facing.trueDeg() - half, facing.trueDeg() + half, RADIUS - 3));
    drawing.line(
        "d-axis", 60, 60, POLAR.x(facing.trueDeg(), RADIUS), POLAR.y(facing.trueDeg(), RADIUS));
  }

  private static void sunLine(Drawing drawing, SunDirection sun) {
    double azimuthDeg = sun.azimuth().trueDeg();
    boolean up = sun.apparentAltitudeDeg() > 0;
    drawing.line(
        up ? "d-sunline" : "d-sunline d-below",
        60,
        60,
        POLAR.x(azimuthDeg, RADIUS),
        POLAR.y(azimuthDeg, RADIUS));
    drawing.circle(
        up ? "d-sun" : "d-sun d-below",
        POLAR.x(azimuthDeg, RADIUS),
        POLAR.y(azimuthDeg, RADIUS),
        6.5);
  }
}

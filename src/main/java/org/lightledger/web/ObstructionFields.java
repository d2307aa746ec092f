package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.skyline.buildings.Crowns;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/** Reads what the owner drew: an outline, a line with a width, or the crown of a tree. */
final class ObstructionFields {
  private static final int MOST_NAME = 120;

  /** More than a hand clicks: own choice. */
  private static final int MOST_CORNERS = 500;

  private static final int MOST_TEXT = 40_000;

  /** Longer is no building or wood beside a spot but a slip of the pen: own choice. */
  private static final double FARTHEST_M = 10_000;

  private static final double LOWEST_M = 0.1;
  private static final double HIGHEST_M = 1000;
  private static final double NARROWEST_M = 0.1;
  private static final double WIDEST_M = 200;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  private final Fields fields;
  private final @Nullable Obstruction before;

  /**
   * Fields of a form.
   *
   * @param fields the form
   * @param before the obstruction that is being changed, or null for a new one
   */
  ObstructionFields(Fields fields, @Nullable Obstruction before) {
    this.fields = fields;
    this.before = before;
  }

  /** The form as it was typed. */
  ObstructionsPage.Form sent() {
    return new ObstructionsPage.Form(
        fields.raw("name"),
        fields.raw("kind"),
        fields.raw("shape"),
        fields.raw("corners"),
        fields.raw("height"),
        fields.raw("width"));
  }

  /** An empty form. */
  static ObstructionsPage.Form empty() {
    return new ObstructionsPage.Form(
        "", code(ObstructionKind.BUILDING), "outline", "", "", Words.plain(Crowns.ROW_WIDTH_M));
  }

  /** The form that holds an obstruction. */
  static ObstructionsPage.Form of(Obstruction stored) {
    return new ObstructionsPage.Form(
        stored.id(),
        code(stored.kind()),
        "outline",
        corners(stored.outline()),
        stored.heightSource() == HeightSource.ASSUMED ? "" : Words.plain(stored.heightM()),
        Words.plain(Crowns.ROW_WIDTH_M));
  }

  static String code(ObstructionKind kind) {
    return kind.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The corners of a plain outline, a line each; "" for one of several parts or with holes. */
  private static String corners(Geometry outline) {
    if (!(outline instanceof Polygon polygon)
        || polygon.getNumInteriorRing() > 0
        || polygon.getNumPoints() > MOST_CORNERS + 1) {
      return "";
    }
    Coordinate[] ring = polygon.getExteriorRing().getCoordinates();
    return Stream.of(ring)
        .limit(ring.length - 1)
        .map(corner -> String.format(Locale.ROOT, "%.7f,%.7f", corner.y, corner.x))
        .collect(Collectors.joining("\n"));
  }

  /** What was drawn, or null when a field was bad, which is then named. */
  @Nullable Obstruction read() {
    String name = fields.required("name", "Name", MOST_NAME);
    ObstructionKind kind = kind();
    Geometry outline = outline();
    Double typedM = fields.number("height", "Height", LOWEST_M, HIGHEST_M, " m");
    if (kind == null || outline == null || !fields.problems().isEmpty()) {
      return null;
    }
    boolean same =
        before != null && fields.raw("height").equals(of(before).height()) && typedM != null;
    double heightM =
        same && before != null ? before.heightM() : typedM == null ? kind.assumedHeightM() : typedM;
    HeightSource source =
        same && before != null
            ? before.heightSource()
            : typedM == null ? HeightSource.ASSUMED : HeightSource.GIVEN;
    try {
      return new Obstruction(
          name,
          kind,
          outline,
          heightM,
          before == null ? 0.0 : before.minHeightM(),
          source,
          before == null ? null : before.groundM());
    } catch (IllegalArgumentException e) {
      fields.problem("height", "Height", String.valueOf(e.getMessage()));
      return null;
    }
  }

  private @Nullable ObstructionKind kind() {
    String code = fields.raw("kind");
    for (ObstructionKind kind : ObstructionKind.values()) {
      if (code(kind).equals(code)) {
        return kind;
      }
    }
    fields.problem(
        "kind",
        "What it is",
        "expected building, tree, tree-row or wood, found " + Fields.found(code));
    return null;
  }

  private @Nullable Geometry outline() {
    String shape = fields.raw("shape");
    String typed = fields.text("corners", "Corners", MOST_TEXT);
    if (before != null && shape.equals("outline") && typed.equals(corners(before.outline()))) {
      return before.outline();
    }
    List<GeoPoint> corners = corners(typed);
    Double widthM = fields.number("width", "Width", NARROWEST_M, WIDEST_M, " m");
    if (!fields.problems().isEmpty()) {
      return null;
    }
    return switch (shape) {
      case "outline" -> atLeast(corners, 3, "an outline") ? area(corners) : null;
      case "line" ->
          atLeast(corners, 2, "a line")
              ? Crowns.row(
                  FACTORY.createLineString(coordinates(corners)),
                  orElse(widthM, Crowns.ROW_WIDTH_M))
              : null;
      case "crown" -> {
        if (corners.size() == 1) {
          yield Crowns.tree(corners.get(0), orElse(widthM, Crowns.TREE_WIDTH_M));
        }
        fields.problem(
            "corners", "Corners", "expected one place for one tree, found " + corners.size());
        yield null;
      }
      default -> {
        fields.problem(
            "shape",
            "How it is drawn",
            "expected outline, line or crown, found " + Fields.found(shape));
        yield null;
      }
    };
  }

  private static double orElse(@Nullable Double value, double other) {
    return value == null ? other : value;
  }

  private List<GeoPoint> corners(String typed) {
    List<GeoPoint> corners = new ArrayList<>();
    int line = 0;
    for (String text : typed.lines().map(String::strip).toList()) {
      line++;
      if (text.isEmpty()) {
        continue;
      }
      try {
        GeoPoint corner = GeoPoint.parse(text);
        if (corners.isEmpty() || !corner.equals(corners.get(corners.size() - 1))) {
          corners.add(corner);
        }
      } catch (IllegalArgumentException e) {
        fields.problem(
            "corners",
            "Corners",
            "expected latitude and longitude in degrees such as 41.95,-6.61 in line "
                + line
                + ", found "
                + Fields.quoted(text));
        return corners;
      }
    }
    if (corners.size() > MOST_CORNERS) {
      fields.problem(
          "corners",
          "Corners",
          "expected at most " + MOST_CORNERS + ", found " + corners.size() + "; draw it in parts");
    }
    requireNear(corners);
    return corners;
  }

  private void requireNear(List<GeoPoint> corners) {
    for (GeoPoint corner : corners) {
      double distanceM = Geodesy.distanceM(corners.get(0), corner);
      if (distanceM > FARTHEST_M) {
        fields.problem(
            "corners",
            "Corners",
            String.format(
                Locale.ROOT,
                "expected corners within 10 km of the first, found %s %.0f km from there; latitude"
                    + " comes first",
                corner.toText(),
                distanceM / 1000));
        return;
      }
    }
  }

  private boolean atLeast(List<GeoPoint> corners, int fewest, String what) {
    if (corners.size() >= fewest) {
      return true;
    }
    fields.problem(
        "corners",
        "Corners",
        "expected at least "
            + fewest
            + " corners of "
            + what
            + ", found "
            + corners.size()
            + "; click the map, or type a latitude and longitude on each line");
    return false;
  }

  private @Nullable Polygon area(List<GeoPoint> corners) {
    List<GeoPoint> ring = new ArrayList<>(corners);
    if (!ring.get(0).equals(ring.get(ring.size() - 1))) {
      ring.add(ring.get(0));
    }
    Polygon area =
        ring.size() < 4 ? FACTORY.createPolygon() : FACTORY.createPolygon(coordinates(ring));
    if (area.isEmpty() || !area.isValid() || area.getArea() == 0.0) {
      fields.problem(
          "corners",
          "Corners",
          "expected an outline whose sides neither cross nor fold back, found one that does; go"
              + " around it once, corner by corner");
      return null;
    }
    return area;
  }

  private static Coordinate[] coordinates(List<GeoPoint> corners) {
    return corners.stream()
        .map(corner -> new Coordinate(corner.longitudeDeg(), corner.latitudeDeg()))
        .toArray(Coordinate[]::new);
  }
}

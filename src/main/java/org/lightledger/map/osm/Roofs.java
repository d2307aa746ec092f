package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.HeightTags;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/**
 * The roof of a house on four corners as a pile of slabs, each narrower than the one beneath: a box
 * up to the ridge would hide the sun over the eaves, where most people stand. Other roofs, and
 * those without a given height, stay boxes (OpenStreetMap wiki, "Simple 3D Buildings").
 */
final class Roofs {
  /** Own choice: a slab of a three metre roof is half a metre high. */
  private static final int SLABS = 6;

  private static final int CORNERS_AND_START = 5;

  private Roofs() {}

  /** The ground that a layer covers, and how high it stands. */
  record Layer(Geometry outline, double heightM) {}

  /** The layers of a building, the eaves first; one layer for a box. */
  static List<Layer> layers(Geometry outline, Map<String, String> tags, HeightTags heights) {
    String shape = tags.getOrDefault("roof:shape", "");
    boolean gabled = shape.equals("gabled");
    OptionalDouble roofM =
        tags.containsKey("roof:height")
            ? HeightTags.lengthM(tags, "roof:height", new ArrayList<>())
            : OptionalDouble.empty();
    boolean pitched = gabled || shape.equals("hipped") || shape.equals("pyramidal");
    if (!pitched
        || roofM.isEmpty()
        || heights.source() == HeightSource.ASSUMED
        || !(outline instanceof Polygon)
        || outline.getNumPoints() != CORNERS_AND_START
        || heights.heightM() - roofM.getAsDouble() <= heights.minHeightM()) {
      return List.of(new Layer(outline, heights.heightM()));
    }
    List<Layer> layers = new ArrayList<>();
    for (int slab = 0; slab <= SLABS; slab++) {
      double across = slab == 0 ? 1.0 : 1.0 - (slab - 0.5) / SLABS;
      double loweredM = roofM.getAsDouble() * (1.0 - slab / (double) SLABS);
      layers.add(
          new Layer(
              narrowed((Polygon) outline, gabled ? 1.0 : across, across, ridgeAcross(tags)),
              heights.heightM() - loweredM));
    }
    return layers;
  }

  private static boolean ridgeAcross(Map<String, String> tags) {
    return "across".equals(tags.get("roof:orientation"));
  }

  /** The outline drawn in towards its middle, along its ridge and across. */
  private static Polygon narrowed(
      Polygon outline, double along, double across, boolean ridgeAcross) {
    Coordinate[] corners = outline.getExteriorRing().getCoordinates();
    double east = Math.cos(Math.toRadians(corners[0].y));
    boolean firstIsLonger = lengthOf(corners, 0, east) > lengthOf(corners, 1, east);
    boolean firstIsRidge = firstIsLonger != ridgeAcross;
    double first = firstIsRidge ? along : across;
    double second = firstIsRidge ? across : along;
    Coordinate[] drawn = new Coordinate[CORNERS_AND_START];
    for (int i = 0; i < 4; i++) {
      boolean start = i == 0 || i == 3;
      boolean near = i < 2;
      // Where the corner lies between the two sides, from 0 to 1 along each.
      double u = (1.0 + (start ? -first : first)) / 2.0;
      double v = (1.0 + (near ? -second : second)) / 2.0;
      drawn[i] = new Coordinate(between(corners, u, v, true), between(corners, u, v, false));
    }
    drawn[4] = drawn[0].copy();
    return outline.getFactory().createPolygon(drawn);
  }

  /** Bilinear between the four corners. */
  private static double between(Coordinate[] corners, double u, double v, boolean x) {
    double a = x ? corners[0].x : corners[0].y;
    double b = x ? corners[1].x : corners[1].y;
    double c = x ? corners[2].x : corners[2].y;
    double d = x ? corners[3].x : corners[3].y;
    return (1 - v) * ((1 - u) * a + u * b) + v * ((1 - u) * d + u * c);
  }

  private static double lengthOf(Coordinate[] corners, int side, double east) {
    Coordinate from = corners[side];
    Coordinate to = corners[side + 1];
    return Math.hypot((to.x - from.x) * east, to.y - from.y);
  }
}

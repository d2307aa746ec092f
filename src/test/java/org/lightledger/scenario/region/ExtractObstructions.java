package org.lightledger.scenario.region;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.zip.GZIPInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.lightledger.geo.GeoPoint;
import org.lightledger.scenario.Lines;
import org.lightledger.scenario.LocalFrame;
import org.lightledger.scenario.Point;
import org.lightledger.skyline.buildings.HeightSource;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;

/**
 * What stands in the sun's way according to a map extract: buildings and their parts, walls,
 * hedges, woods and single trees. A building with parts counts by its parts; a row of trees whose
 * trees are mapped counts by its trees.
 */
public final class ExtractObstructions {
  private static final GeometryFactory FACTORY = new GeometryFactory();
  private static final int CROWN_CORNERS = 12;
  private static final double STOREY_M = 3;
  private static final int ROOF_SLABS = 6;

  /** A wall follows the ground; in pieces this long each has its own foot, metres. */
  private static final double PIECE_M = 8;

  private final Map<Long, Element> nodes = new HashMap<>();
  private final Map<Long, Element> ways = new HashMap<>();
  private final List<Obstruction> found = new ArrayList<>();

  private static final class Element {
    private final Map<String, String> tags = new HashMap<>();
    private final List<Long> refs = new ArrayList<>();
    private Point at = new Point(0, 0);

    String tag(String key) {
      return tags.getOrDefault(key, "");
    }
  }

  private ExtractObstructions() {}

  /** Reads an extract. */
  public static List<Obstruction> read(Path file) throws IOException {
    ExtractObstructions reader = new ExtractObstructions();
    try (InputStream in = new GZIPInputStream(Files.newInputStream(file))) {
      reader.parse(XMLInputFactory.newInstance().createXMLStreamReader(in));
    } catch (XMLStreamException e) {
      throw new IOException(file.getFileName() + " is no XML", e);
    }
    reader.trees();
    reader.ways.forEach(reader::way);
    return reader.found;
  }

  private void parse(XMLStreamReader xml) throws XMLStreamException {
    Element current = new Element();
    while (xml.hasNext()) {
      if (xml.next() == XMLStreamConstants.START_ELEMENT) {
        switch (xml.getLocalName()) {
          case "node" -> {
            current = new Element();
            current.at = LocalFrame.toLocal(new GeoPoint(number(xml, "lat"), number(xml, "lon")));
            nodes.put(Long.parseLong(xml.getAttributeValue(null, "id")), current);
          }
          case "way" -> {
            current = new Element();
            ways.put(Long.parseLong(xml.getAttributeValue(null, "id")), current);
          }
          case "relation" -> current = new Element();
          case "nd" -> current.refs.add(Long.parseLong(xml.getAttributeValue(null, "ref")));
          case "tag" ->
              current.tags.put(xml.getAttributeValue(null, "k"), xml.getAttributeValue(null, "v"));
          default -> {}
        }
      }
    }
  }

  private static double number(XMLStreamReader xml, String name) {
    return Double.parseDouble(xml.getAttributeValue(null, name));
  }

  private void trees() {
    nodes.forEach(
        (id, node) -> {
          if (node.tag("natural").equals("tree") || node.tag("natural").equals("shrub")) {
            double half = Double.parseDouble(node.tag("diameter_crown")) / 2;
            List<Point> crown = Lines.around(node.at, half, half, CROWN_CORNERS);
            String name = node.tag("natural") + " " + node.tag("leaf_cycle") + " " + id;
            add(name, ObstructionKind.TREE_ROW, crown, node);
          }
        });
  }

  private void way(long id, Element way) {
    List<Point> line = way.refs.stream().map(ref -> node(ref).at).toList();
    String name = way.tags.getOrDefault("name", "way " + id);
    if (way.tags.containsKey("building:part")
        || (way.tags.containsKey("building") && !hasParts(line))) {
      building(name, line.subList(1, line.size()), way);
    } else if (way.tags.containsKey("barrier")) {
      ObstructionKind kind =
          way.tag("barrier").equals("hedge") ? ObstructionKind.TREE_ROW : ObstructionKind.BUILDING;
      band(way.tag("barrier") + " " + id, kind, line, Double.parseDouble(way.tag("width")), way);
    } else if (way.tag("natural").equals("wood")) {
      add(name, ObstructionKind.WOOD, line.subList(1, line.size()), way);
    } else if (way.tag("natural").equals("tree_row")
        && way.refs.stream().noneMatch(ref -> node(ref).tag("natural").equals("tree"))) {
      band("tree row " + id, ObstructionKind.TREE_ROW, line, 6, way);
    }
  }

  /** A pitched roof is a pile of slabs, each narrower than the one beneath. */
  private void building(String name, List<Point> outline, Element way) {
    double roofM = Double.parseDouble(way.tags.getOrDefault("roof:height", "0"));
    boolean gabled = way.tag("roof:shape").equals("gabled");
    for (int slab = 0; slab <= (roofM > 0 ? ROOF_SLABS : 0); slab++) {
      double across = slab == 0 ? 1 : 1 - (slab - 0.5) / ROOF_SLABS;
      List<Point> covered = narrowed(outline, gabled ? 1 : across, across);
      double loweredM = roofM * (1 - slab / (double) ROOF_SLABS);
      add(name, ObstructionKind.BUILDING, covered, way, loweredM);
    }
  }

  /** A rectangle narrowed towards its middle, along its longer sides and across. */
  private static List<Point> narrowed(List<Point> outline, double along, double across) {
    Point a = outline.get(0);
    boolean firstIsLong = a.to(outline.get(1)) > outline.get(1).to(outline.get(2));
    Point ahead = half(a, outline.get(firstIsLong ? 1 : 3));
    Point aside = half(a, outline.get(firstIsLong ? 3 : 1));
    Point opposite = outline.get(2);
    Point middle = new Point((a.east() + opposite.east()) / 2, (a.north() + opposite.north()) / 2);
    List<Point> corners = new ArrayList<>();
    for (int[] sign : new int[][] {{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}) {
      double l = sign[0] * along;
      double w = sign[1] * across;
      corners.add(
          new Point(
              middle.east() + l * ahead.east() + w * aside.east(),
              middle.north() + l * ahead.north() + w * aside.north()));
    }
    return corners;
  }

  private static Point half(Point from, Point to) {
    return new Point((to.east() - from.east()) / 2, (to.north() - from.north()) / 2);
  }

  private Element node(long ref) {
    return Optional.ofNullable(nodes.get(ref))
        .orElseThrow(() -> new IllegalStateException("no node " + ref));
  }

  private boolean hasParts(List<Point> outline) {
    return ways.values().stream()
        .filter(way -> way.tags.containsKey("building:part"))
        .anyMatch(
            part -> {
              Point a = node(part.refs.get(0)).at;
              Point c = node(part.refs.get(2)).at;
              Point middle = new Point((a.east() + c.east()) / 2, (a.north() + c.north()) / 2);
              return Lines.inside(outline, middle);
            });
  }

  private void band(
      String name, ObstructionKind kind, List<Point> line, double widthM, Element element) {
    for (int i = 1; i < line.size(); i++) {
      double bearing = line.get(i - 1).bearingTo(line.get(i));
      double lengthM = line.get(i - 1).to(line.get(i));
      int pieces = (int) Math.ceil(lengthM / PIECE_M);
      for (int piece = 0; piece < pieces; piece++) {
        Point from = line.get(i - 1).along(bearing, lengthM * piece / pieces);
        Point to = line.get(i - 1).along(bearing, lengthM * (piece + 1) / pieces);
        List<Point> outline =
            List.of(
                from.along(bearing - 90, widthM / 2),
                to.along(bearing - 90, widthM / 2),
                to.along(bearing + 90, widthM / 2),
                from.along(bearing + 90, widthM / 2));
        add(name, kind, outline, element);
      }
    }
  }

  private void add(String name, ObstructionKind kind, List<Point> outline, Element element) {
    add(name, kind, outline, element, 0);
  }

  private void add(
      String name, ObstructionKind kind, List<Point> outline, Element element, double loweredM) {
    boolean given = element.tags.containsKey("height");
    boolean levels = element.tags.containsKey("building:levels");
    double heightM =
        given
            ? Double.parseDouble(element.tag("height"))
            : levels
                ? STOREY_M * Double.parseDouble(element.tag("building:levels"))
                : kind.assumedHeightM();
    HeightSource source =
        given ? HeightSource.GIVEN : levels ? HeightSource.LEVELS : HeightSource.ASSUMED;
    double minHeightM = Double.parseDouble(element.tags.getOrDefault("min_height", "0"));
    if (minHeightM >= heightM - loweredM) {
      return;
    }
    found.add(
        new Obstruction(
            name, kind, polygon(outline), heightM - loweredM, minHeightM, source, null));
  }

  private static Polygon polygon(List<Point> outline) {
    Coordinate[] ring = new Coordinate[outline.size() + 1];
    for (int i = 0; i < ring.length; i++) {
      GeoPoint place = LocalFrame.toGeo(outline.get(i % outline.size()));
      ring[i] = new Coordinate(place.longitudeDeg(), place.latitudeDeg());
    }
    return FACTORY.createPolygon(ring);
  }
}

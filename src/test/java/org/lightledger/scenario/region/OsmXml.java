package org.lightledger.scenario.region;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.lightledger.geo.GeoPoint;
import org.lightledger.scenario.LocalFrame;
import org.lightledger.scenario.Point;

/**
 * A map extract in the making: OpenStreetMap XML 0.6, gzipped. Nodes at one place are one node, so
 * that ways that meet are joined.
 */
final class OsmXml {
  /**
   * Numbers count up from here, a hundred times beyond the numbers of the real map: nothing in the
   * extract can be taken for a thing on it. They are positive because not every reader takes
   * negative ones.
   */
  static final long FIRST_ID = 1_000_000_000_001L;

  private static final String EDITED = "2026-01-01T00:00:00Z";

  private final Map<String, Long> nodeIds = new LinkedHashMap<>();
  private final List<Node> nodes = new ArrayList<>();
  private final List<Way> ways = new ArrayList<>();
  private final List<Relation> relations = new ArrayList<>();

  private record Node(String lat, String lon, Map<String, String> tags) {}

  private record Way(List<Long> nodes, Map<String, String> tags) {}

  private record Relation(List<Long> outer, List<Long> inner, Map<String, String> tags) {}

  /** Tags from keys and values in turn. */
  static Map<String, String> tags(String... keysAndValues) {
    Map<String, String> tags = new LinkedHashMap<>();
    for (int i = 0; i < keysAndValues.length; i += 2) {
      tags.put(keysAndValues[i], keysAndValues[i + 1]);
    }
    return tags;
  }

  /** Adds a node, or tags to the one that is there. */
  long node(Point at, Map<String, String> tags) {
    GeoPoint place = LocalFrame.toGeo(at);
    String lat = degrees(place.latitudeDeg());
    String lon = degrees(place.longitudeDeg());
    long id =
        nodeIds.computeIfAbsent(
            lat + "," + lon,
            key -> {
              nodes.add(new Node(lat, lon, new LinkedHashMap<>()));
              return FIRST_ID + nodes.size() - 1;
            });
    nodes.get((int) (id - FIRST_ID)).tags().putAll(tags);
    return id;
  }

  /** Adds a line. */
  long line(List<Point> points, Map<String, String> tags) {
    return way(points, false, tags);
  }

  /** Adds an area; the outline is closed here. */
  long area(List<Point> outline, Map<String, String> tags) {
    return way(outline, true, tags);
  }

  private long way(List<Point> points, boolean closed, Map<String, String> tags) {
    List<Long> ids = new ArrayList<>();
    for (Point point : points) {
      ids.add(node(point, Map.of()));
    }
    if (closed) {
      ids.add(ids.get(0));
    }
    ways.add(new Way(ids, tags));
    return FIRST_ID + ways.size() - 1;
  }

  /** Adds an area of several ways. */
  void multipolygon(List<Long> outer, List<Long> inner, Map<String, String> tags) {
    relations.add(new Relation(outer, inner, tags));
  }

  /** Seven decimals, a centimetre, as the real map has them. */
  private static String degrees(double value) {
    return BigDecimal.valueOf(value).setScale(7, RoundingMode.HALF_EVEN).toPlainString();
  }

  void write(Path file) throws IOException {
    try (OutputStream out =
        new GZIPOutputStream(new BufferedOutputStream(Files.newOutputStream(file)))) {
      XMLStreamWriter xml =
          XMLOutputFactory.newInstance().createXMLStreamWriter(out, StandardCharsets.UTF_8.name());
      xml.writeStartDocument(StandardCharsets.UTF_8.name(), "1.0");
      xml.writeCharacters("\n");
      xml.writeStartElement("osm");
      xml.writeAttribute("version", "0.6");
      xml.writeAttribute("generator", "Lightledger sample region");
      xml.writeAttribute("copyright", "invented, no real data");
      bounds(xml);
      for (int i = 0; i < nodes.size(); i++) {
        Node node = nodes.get(i);
        start(xml, "node", i);
        xml.writeAttribute("lat", node.lat());
        xml.writeAttribute("lon", node.lon());
        end(xml, node.tags());
      }
      for (int i = 0; i < ways.size(); i++) {
        start(xml, "way", i);
        for (long id : ways.get(i).nodes()) {
          newLine(xml, 2);
          xml.writeEmptyElement("nd");
          xml.writeAttribute("ref", Long.toString(id));
        }
        end(xml, ways.get(i).tags());
      }
      for (int i = 0; i < relations.size(); i++) {
        start(xml, "relation", i);
        members(xml, relations.get(i).outer(), "outer");
        members(xml, relations.get(i).inner(), "inner");
        end(xml, relations.get(i).tags());
      }
      newLine(xml, 0);
      xml.writeEndElement();
      xml.writeEndDocument();
      xml.close();
    } catch (XMLStreamException e) {
      throw new IOException("the extract can not be written to " + file.getFileName(), e);
    }
  }

  private void bounds(XMLStreamWriter xml) throws XMLStreamException {
    newLine(xml, 1);
    xml.writeEmptyElement("bounds");
    xml.writeAttribute("minlat", end(true, true));
    xml.writeAttribute("minlon", end(false, true));
    xml.writeAttribute("maxlat", end(true, false));
    xml.writeAttribute("maxlon", end(false, false));
  }

  private String end(boolean latitude, boolean least) {
    return nodes.stream()
        .map(node -> new BigDecimal(latitude ? node.lat() : node.lon()))
        .reduce((one, other) -> least ? one.min(other) : one.max(other))
        .orElseThrow()
        .toPlainString();
  }

  private static void start(XMLStreamWriter xml, String name, int number)
      throws XMLStreamException {
    newLine(xml, 1);
    xml.writeStartElement(name);
    xml.writeAttribute("id", Long.toString(FIRST_ID + number));
    xml.writeAttribute("version", "1");
    xml.writeAttribute("timestamp", EDITED);
  }

  private static void members(XMLStreamWriter xml, List<Long> ids, String role)
      throws XMLStreamException {
    for (long id : ids) {
      newLine(xml, 2);
      xml.writeEmptyElement("member");
      xml.writeAttribute("type", "way");
      xml.writeAttribute("ref", Long.toString(id));
      xml.writeAttribute("role", role);
    }
  }

  private static void end(XMLStreamWriter xml, Map<String, String> tags) throws XMLStreamException {
    for (Map.Entry<String, String> tag : tags.entrySet()) {
      newLine(xml, 2);
      xml.writeEmptyElement("tag");
      xml.writeAttribute("k", tag.getKey());
      xml.writeAttribute("v", tag.getValue());
    }
    xml.writeEndElement();
  }

  private static void newLine(XMLStreamWriter xml, int depth) throws XMLStreamException {
    xml.writeCharacters("\n" + " ".repeat(depth));
  }
}

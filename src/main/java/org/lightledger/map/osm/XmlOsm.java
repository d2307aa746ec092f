package org.lightledger.map.osm;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapBox;

/**
 * Reads OSM XML, version 0.6, in UTF-8, as a stream. A document type declaration is refused: the
 * format has none, and its entities could read other files or fill the memory. What an editor
 * marked as deleted is passed over.
 */
final class XmlOsm {
  /** OpenStreetMap allows 2000 nodes in a way; own choice, with room for other makers. */
  private static final int MOST_NODES_OF_A_WAY = 100_000;

  private static final byte[] BYTE_ORDER_MARK = {(byte) 0xef, (byte) 0xbb, (byte) 0xbf};

  private static final XMLInputFactory XML = factory();

  private final OsmVisitor visitor;
  private long[] nodeIds = new long[256];

  XmlOsm(OsmVisitor visitor) {
    this.visitor = visitor;
  }

  private static XMLInputFactory factory() {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_NAMESPACE_AWARE, false);
    return factory;
  }

  void read(InputStream in) throws IOException {
    XMLStreamReader xml = null;
    try {
      xml = XML.createXMLStreamReader(text(in));
      String declared = xml.getCharacterEncodingScheme();
      if (declared != null && !declared.equalsIgnoreCase("UTF-8")) {
        throw new OsmFileException("expected OSM XML in UTF-8, found it in " + declared);
      }
      document(xml);
    } catch (XMLStreamException e) {
      if (e.getNestedException() instanceof IOException cause) {
        throw cause;
      }
      throw new OsmFileException(
          "expected whole XML, found a mistake near line "
              + (e.getLocation() == null ? 1 : e.getLocation().getLineNumber())
              + "; the file breaks off or is damaged, fetch it again",
          e);
    } finally {
      close(xml);
    }
  }

  /**
   * The text after a byte order mark, if there is one. Decoded here, because the parser takes bytes
   * that are no text for an error to write on standard error.
   */
  private static Reader text(InputStream in) throws IOException {
    in.mark(BYTE_ORDER_MARK.length);
    if (!Arrays.equals(in.readNBytes(BYTE_ORDER_MARK.length), BYTE_ORDER_MARK)) {
      in.reset();
    }
    return new InputStreamReader(new TagEnds(in), StandardCharsets.UTF_8.newDecoder());
  }

  private static void close(@Nullable XMLStreamReader xml) throws OsmFileException {
    if (xml != null) {
      try {
        xml.close();
      } catch (XMLStreamException e) {
        throw new OsmFileException("the file can not be closed", e);
      }
    }
  }

  private void document(XMLStreamReader xml) throws XMLStreamException, OsmFileException {
    boolean rootSeen = false;
    while (xml.hasNext()) {
      int event = xml.next();
      if (event == XMLStreamConstants.DTD) {
        throw new OsmFileException(
            "expected OSM XML, found a document type declaration, which it never has");
      }
      if (event != XMLStreamConstants.START_ELEMENT) {
        continue;
      }
      if (!rootSeen) {
        root(xml);
        rootSeen = true;
      } else {
        element(xml);
      }
    }
    if (!rootSeen) {
      throw new OsmFileException("expected OSM XML, found no element");
    }
  }

  private void root(XMLStreamReader xml) throws OsmFileException {
    if (!"osm".equals(xml.getLocalName())) {
      throw new OsmFileException(
          "expected an extract that begins with <osm>, found <" + xml.getLocalName() + ">");
    }
    String version = xml.getAttributeValue(null, "version");
    if (!"0.6".equals(version)) {
      throw new OsmFileException("expected OSM XML of version 0.6, found " + version);
    }
    String licence = xml.getAttributeValue(null, "license");
    if (licence != null) {
      visitor.licence(licence);
    }
  }

  private void element(XMLStreamReader xml) throws XMLStreamException, OsmFileException {
    switch (xml.getLocalName()) {
      case "bounds" -> bounds(xml);
      case "node" -> thing(xml, OsmVisitor.Part.NODES);
      case "way" -> thing(xml, OsmVisitor.Part.WAYS);
      case "relation" -> thing(xml, OsmVisitor.Part.RELATIONS);
      default -> {
        // Other elements, such as notes on the whole file, hold no map.
      }
    }
  }

  private void bounds(XMLStreamReader xml) throws OsmFileException {
    try {
      visitor.bounds(
          new MapBox(
              Double.parseDouble(attribute(xml, "minlon")),
              Double.parseDouble(attribute(xml, "minlat")),
              Double.parseDouble(attribute(xml, "maxlon")),
              Double.parseDouble(attribute(xml, "maxlat"))));
    } catch (IllegalArgumentException e) {
      throw new OsmFileException("the file's bounds: " + e.getMessage(), e);
    }
  }

  private void thing(XMLStreamReader xml, OsmVisitor.Part part)
      throws XMLStreamException, OsmFileException {
    boolean there =
        visitor.part() == part
            && !"delete".equals(xml.getAttributeValue(null, "action"))
            && !"false".equals(xml.getAttributeValue(null, "visible"));
    if (!there) {
      passOver(xml);
      return;
    }
    long id = number(xml, "id");
    double latitudeDeg = part == OsmVisitor.Part.NODES ? degrees(xml, "lat", 90.0) : 0.0;
    double longitudeDeg = part == OsmVisitor.Part.NODES ? degrees(xml, "lon", 180.0) : 0.0;
    Map<String, String> tags = Map.of();
    List<OsmVisitor.Member> members = new ArrayList<>();
    int nodes = 0;
    while (xml.next() != XMLStreamConstants.END_ELEMENT) {
      if (xml.getEventType() != XMLStreamConstants.START_ELEMENT) {
        continue;
      }
      switch (xml.getLocalName()) {
        case "tag" -> {
          tags = tags.isEmpty() ? new HashMap<>() : tags;
          tags.put(attribute(xml, "k"), attribute(xml, "v"));
        }
        case "nd" -> append(number(xml, "ref"), nodes++);
        case "member" -> {
          if ("way".equals(xml.getAttributeValue(null, "type"))) {
            String role = xml.getAttributeValue(null, "role");
            members.add(new OsmVisitor.Member(number(xml, "ref"), role == null ? "" : role));
          }
        }
        default -> {
          // Nothing else belongs to a map.
        }
      }
      passOver(xml);
    }
    switch (part) {
      case NODES -> visitor.node(id, latitudeDeg, longitudeDeg, tags);
      case WAYS -> visitor.way(id, Arrays.copyOf(nodeIds, nodes), tags);
      case RELATIONS -> visitor.relation(id, members, tags);
    }
  }

  private void append(long nodeId, int at) throws OsmFileException {
    if (at >= MOST_NODES_OF_A_WAY) {
      throw new OsmFileException(
          "expected ways of at most " + MOST_NODES_OF_A_WAY + " nodes, found a longer one");
    }
    if (at == nodeIds.length) {
      nodeIds = Arrays.copyOf(nodeIds, 2 * nodeIds.length);
    }
    nodeIds[at] = nodeId;
  }

  /** Goes to the end of the element that the reader stands on. */
  private static void passOver(XMLStreamReader xml) throws XMLStreamException {
    int depth = 1;
    while (depth > 0) {
      int event = xml.next();
      if (event == XMLStreamConstants.START_ELEMENT) {
        depth++;
      } else if (event == XMLStreamConstants.END_ELEMENT) {
        depth--;
      }
    }
  }

  private static long number(XMLStreamReader xml, String name) throws OsmFileException {
    String text = attribute(xml, name);
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      throw wrong(xml, "a whole number in " + name, text, e);
    }
  }

  private static double degrees(XMLStreamReader xml, String name, double most)
      throws OsmFileException {
    String text = attribute(xml, name);
    try {
      double degrees = Double.parseDouble(text);
      if (Math.abs(degrees) <= most) {
        return degrees;
      }
      throw wrong(xml, "%s in [-%.0f, %.0f]".formatted(name, most, most), text, null);
    } catch (NumberFormatException e) {
      throw wrong(xml, "degrees in " + name, text, e);
    }
  }

  private static String attribute(XMLStreamReader xml, String name) throws OsmFileException {
    String text = xml.getAttributeValue(null, name);
    if (text == null) {
      throw wrong(xml, "<" + xml.getLocalName() + "> with " + name, "none", null);
    }
    return text;
  }

  private static OsmFileException wrong(
      XMLStreamReader xml, String expected, String found, @Nullable Exception cause) {
    return new OsmFileException(
        "line %d: expected %s, found \"%s\"; fetch the file again"
            .formatted(xml.getLocation().getLineNumber(), expected, found),
        cause);
  }
}

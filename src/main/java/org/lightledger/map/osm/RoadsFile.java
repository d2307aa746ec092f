package org.lightledger.map.osm;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.zip.GZIPOutputStream;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;

/**
 * Copies the roads and ferries of an extract, and the nodes on them, into a file of their own: OSM
 * XML of version 0.6, packed by gzip. Whoever reads that file meets only what the bounded readers
 * here let through, and PBF need not be read twice over.
 */
public final class RoadsFile {
  private static final String UTF_8 = StandardCharsets.UTF_8.name();

  private RoadsFile() {}

  /**
   * Copies the roads.
   *
   * @param extract OSM XML, plain or packed by gzip, or OSM PBF
   * @param into the new file
   * @throws IOException when the extract can not be read, breaks off, is damaged or no extract, or
   *     the new file can not be written
   */
  public static void write(Path extract, Path into) throws IOException {
    OsmFile file = new OsmFile(extract);
    OnRoads onRoads = new OnRoads();
    file.read(onRoads);
    long[] nodeIds = onRoads.nodeIds.takeSorted();
    try (OutputStream out =
        new GZIPOutputStream(new BufferedOutputStream(Files.newOutputStream(into)))) {
      XMLStreamWriter xml = XMLOutputFactory.newFactory().createXMLStreamWriter(out, UTF_8);
      xml.writeStartDocument(UTF_8, "1.0");
      xml.writeStartElement("osm");
      xml.writeAttribute("version", "0.6");
      Copy copy = new Copy(xml);
      file.read(copy.nodes(nodeIds));
      file.read(copy.ways());
      xml.writeEndElement();
      xml.writeEndDocument();
      xml.close();
    } catch (XMLStreamException e) {
      throw new IOException("The roads of " + extract.getFileName() + " can not be copied", e);
    }
  }

  private static boolean isRoad(Map<String, String> tags) {
    return tags.containsKey("highway") || "ferry".equals(tags.get("route"));
  }

  /** Which nodes lie on roads. */
  private static final class OnRoads implements OsmVisitor {
    private final Longs nodeIds = new Longs();

    @Override
    public Part part() {
      return Part.WAYS;
    }

    @Override
    public void way(long id, long[] nodes, Map<String, String> tags) {
      if (isRoad(tags)) {
        for (long node : nodes) {
          nodeIds.add(node);
        }
      }
    }
  }

  /** Writes what it sees. */
  private record Copy(XMLStreamWriter xml) {

    OsmVisitor nodes(long[] nodeIds) {
      return new OsmVisitor() {
        @Override
        public Part part() {
          return Part.NODES;
        }

        @Override
        public void node(long id, double latitudeDeg, double longitudeDeg, Map<String, String> tags)
            throws OsmFileException {
          if (Arrays.binarySearch(nodeIds, id) >= 0) {
            writing(() -> writeNode(id, latitudeDeg, longitudeDeg, tags));
          }
        }
      };
    }

    OsmVisitor ways() {
      return new OsmVisitor() {
        @Override
        public Part part() {
          return Part.WAYS;
        }

        @Override
        public void way(long id, long[] nodes, Map<String, String> tags) throws OsmFileException {
          if (isRoad(tags)) {
            writing(() -> writeWay(id, nodes, tags));
          }
        }
      };
    }

    private interface Writing {
      void run() throws XMLStreamException;
    }

    private static void writing(Writing writing) throws OsmFileException {
      try {
        writing.run();
      } catch (XMLStreamException e) {
        throw new OsmFileException("the copy of its roads can not be written", e);
      }
    }

    private void writeNode(
        long id, double latitudeDeg, double longitudeDeg, Map<String, String> tags)
        throws XMLStreamException {
      xml.writeStartElement("node");
      xml.writeAttribute("id", Long.toString(id));
      xml.writeAttribute("lat", Double.toString(latitudeDeg));
      xml.writeAttribute("lon", Double.toString(longitudeDeg));
      writeTags(tags);
      xml.writeEndElement();
    }

    private void writeWay(long id, long[] nodes, Map<String, String> tags)
        throws XMLStreamException {
      xml.writeStartElement("way");
      xml.writeAttribute("id", Long.toString(id));
      for (long node : nodes) {
        xml.writeEmptyElement("nd");
        xml.writeAttribute("ref", Long.toString(node));
      }
      writeTags(tags);
      xml.writeEndElement();
    }

    /** Names do not lead anywhere, and text that XML can not hold is in no tag that does. */
    private void writeTags(Map<String, String> tags) throws XMLStreamException {
      for (Map.Entry<String, String> tag : tags.entrySet()) {
        if (isPlain(tag.getKey()) && isPlain(tag.getValue())) {
          xml.writeEmptyElement("tag");
          xml.writeAttribute("k", tag.getKey());
          xml.writeAttribute("v", tag.getValue());
        }
      }
    }

    private static boolean isPlain(String text) {
      return text.chars().allMatch(c -> c >= ' ' && c < 0x7f);
    }
  }
}

package org.lightledger.map.osm;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;

/**
 * Writes small extracts: squares of a thousandth of a degree beside each other, and what one adds.
 */
final class Xml {
  private final StringBuilder nodes = new StringBuilder();
  private final StringBuilder rest = new StringBuilder();
  private String root = "<osm version=\"0.6\">";
  private long lastNode;

  Xml root(String element) {
    root = element;
    return this;
  }

  /** A node with tags such as "natural=tree"; its number is returned. */
  long node(double latitudeDeg, double longitudeDeg, String... tags) {
    lastNode++;
    nodes.append(
        String.format(
            Locale.ROOT,
            "<node id=\"%d\" lat=\"%.7f\" lon=\"%.7f\">%s</node>\n",
            lastNode,
            latitudeDeg,
            longitudeDeg,
            tags(tags)));
    return lastNode;
  }

  /** A way through nodes. */
  Xml way(long id, long[] nodeIds, String... tags) {
    rest.append("<way id=\"").append(id).append("\">");
    for (long node : nodeIds) {
      rest.append("<nd ref=\"").append(node).append("\"/>");
    }
    rest.append(tags(tags)).append("</way>\n");
    return this;
  }

  /** A square way around a place, of some size in degrees. */
  Xml square(long id, double latitudeDeg, double longitudeDeg, double sizeDeg, String... tags) {
    return way(id, squareNodes(latitudeDeg, longitudeDeg, sizeDeg), tags);
  }

  long[] squareNodes(double latitudeDeg, double longitudeDeg, double sizeDeg) {
    double half = sizeDeg / 2.0;
    long first = node(latitudeDeg - half, longitudeDeg - half);
    return new long[] {
      first,
      node(latitudeDeg - half, longitudeDeg + half),
      node(latitudeDeg + half, longitudeDeg + half),
      node(latitudeDeg + half, longitudeDeg - half),
      first
    };
  }

  /** A multipolygon of ways told as "outer 5". */
  Xml multipolygon(long id, String[] members, String... tags) {
    rest.append("<relation id=\"").append(id).append("\">");
    for (String member : members) {
      String[] words = member.split(" ");
      rest.append("<member type=\"way\" role=\"%s\" ref=\"%s\"/>".formatted(words[0], words[1]));
    }
    rest.append("<tag k=\"type\" v=\"multipolygon\"/>").append(tags(tags)).append("</relation>\n");
    return this;
  }

  private static String tags(String... tags) {
    StringBuilder text = new StringBuilder();
    for (String tag : tags) {
      int equals = tag.indexOf('=');
      text.append(
          "<tag k=\"%s\" v=\"%s\"/>"
              .formatted(
                  tag.substring(0, equals),
                  tag.substring(equals + 1).replace("&", "&amp;").replace("\"", "&quot;")));
    }
    return text.toString();
  }

  String text() {
    return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + root + "\n" + nodes + rest + "</osm>\n";
  }

  Path write(Path folder) {
    try {
      return Files.writeString(folder.resolve("small.osm"), text());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

package org.lightledger.session.drive;

import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.Random;
import java.util.Set;
import java.util.zip.GZIPInputStream;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamReader;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;

/**
 * The streets of an extract as a plain graph, made without any routing library: every way that cars
 * may use, one-way streets one way, nothing closed. Ways between two of its nodes are found by
 * Dijkstra's algorithm.
 */
final class PlainStreets {
  private static final Set<String> FOR_CARS =
      Set.of(
          "motorway",
          "motorway_link",
          "trunk",
          "trunk_link",
          "primary",
          "primary_link",
          "secondary",
          "secondary_link",
          "tertiary",
          "tertiary_link",
          "unclassified",
          "residential",
          "living_street",
          "service",
          "road",
          "track",
          "pedestrian");

  private final Map<Long, GeoPoint> nodes = new HashMap<>();
  private final Map<Long, Map<Long, Double>> edges = new HashMap<>();
  private final List<Long> onStreets = new ArrayList<>();

  /** Two nodes and the length of the shortest way between them, metres. */
  record Pair(GeoPoint from, GeoPoint to, double shortestM) {}

  private record Reached(long node, double distanceM) {}

  static PlainStreets read(Path extract) throws Exception {
    PlainStreets streets = new PlainStreets();
    try (InputStream in = new GZIPInputStream(Files.newInputStream(extract))) {
      XMLStreamReader xml = XMLInputFactory.newInstance().createXMLStreamReader(in);
      List<Long> way = new ArrayList<>();
      Map<String, String> tags = new HashMap<>();
      while (xml.hasNext()) {
        int event = xml.next();
        if (event == XMLStreamConstants.START_ELEMENT) {
          switch (xml.getLocalName()) {
            case "node" ->
                streets.nodes.put(
                    Long.valueOf(xml.getAttributeValue(null, "id")),
                    new GeoPoint(
                        Double.parseDouble(xml.getAttributeValue(null, "lat")),
                        Double.parseDouble(xml.getAttributeValue(null, "lon"))));
            case "way" -> {
              way.clear();
              tags.clear();
            }
            case "nd" -> way.add(Long.valueOf(xml.getAttributeValue(null, "ref")));
            case "tag" ->
                tags.put(xml.getAttributeValue(null, "k"), xml.getAttributeValue(null, "v"));
            default -> {}
          }
        } else if (event == XMLStreamConstants.END_ELEMENT && xml.getLocalName().equals("way")) {
          streets.add(way, tags);
        }
      }
    }
    streets.onStreets.addAll(streets.edges.keySet().stream().sorted().toList());
    return streets;
  }

  private void add(List<Long> way, Map<String, String> tags) {
    if (!FOR_CARS.contains(tags.getOrDefault("highway", ""))) {
      return;
    }
    String oneway = tags.getOrDefault("oneway", "no");
    boolean roundabout = "roundabout".equals(tags.get("junction"));
    for (int i = 1; i < way.size(); i++) {
      GeoPoint one = nodes.get(way.get(i - 1));
      GeoPoint other = nodes.get(way.get(i));
      if (one == null || other == null) {
        continue;
      }
      double lengthM = Geodesy.distanceM(one, other);
      if (!oneway.equals("-1")) {
        edges
            .computeIfAbsent(way.get(i - 1), n -> new HashMap<>())
            .merge(way.get(i), lengthM, Math::min);
      }
      if (!roundabout && !Set.of("yes", "1", "true").contains(oneway)) {
        edges
            .computeIfAbsent(way.get(i), n -> new HashMap<>())
            .merge(way.get(i - 1), lengthM, Math::min);
      }
    }
  }

  GeoPoint junction(Random random) {
    return nodes.get(onStreets.get(random.nextInt(onStreets.size())));
  }

  List<Pair> pairs(int count, Random random) {
    List<Pair> pairs = new ArrayList<>();
    while (pairs.size() < count) {
      long from = onStreets.get(random.nextInt(onStreets.size()));
      long to = onStreets.get(random.nextInt(onStreets.size()));
      double shortestM = shortestM(from, to);
      if (Double.isFinite(shortestM)) {
        pairs.add(new Pair(nodes.get(from), nodes.get(to), shortestM));
      }
    }
    return pairs;
  }

  private double shortestM(long from, long to) {
    Map<Long, Double> done = new HashMap<>();
    PriorityQueue<Reached> open =
        new PriorityQueue<>(Comparator.comparingDouble(Reached::distanceM));
    open.add(new Reached(from, 0));
    while (!open.isEmpty()) {
      Reached next = open.poll();
      if (next.node() == to) {
        return next.distanceM();
      }
      if (done.putIfAbsent(next.node(), next.distanceM()) == null) {
        edges
            .getOrDefault(next.node(), Map.of())
            .forEach((node, lengthM) -> open.add(new Reached(node, next.distanceM() + lengthM)));
      }
    }
    return Double.POSITIVE_INFINITY;
  }
}

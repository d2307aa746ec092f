package org.lightledger.scenario.region;

import static org.lightledger.scenario.region.OsmXml.tags;
import static org.lightledger.scenario.region.TownMap.metres;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.lightledger.scenario.Arches;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.Building;
import org.lightledger.scenario.Lines;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.Street;

/**
 * Streets, lanes and paths, joined where they meet, and what a visitor needs: parking, toilets, a
 * café.
 */
final class WayNet {
  /** A street that ends this near to another one runs into it, metres: the squares are wide. */
  private static final double MEETS_M = 25;

  private final Brezaluz town;
  private final OsmXml map;
  private final List<Way> ways = new ArrayList<>();

  private record Way(List<Point> line, Map<String, String> tags) {}

  WayNet(Brezaluz town, OsmXml map) {
    this.town = town;
    this.map = map;
  }

  void draw() {
    for (Street street : town.streets()) {
      ways.add(new Way(new ArrayList<>(street.line()), street(street)));
    }
    bridge();
    unpaved();
    join();
    for (Way way : ways) {
      map.line(way.line(), way.tags());
    }
    arcade();
    forVisitors();
  }

  private static Map<String, String> street(Street street) {
    Map<String, String> tags =
        switch (street.kind()) {
          case PAVED ->
              street.widthM() > 5
                  ? tags("highway", "residential", "surface", "paving_stones", "oneway", "no")
                  : tags("highway", "pedestrian", "surface", "sett");
          case GRAVEL -> tags("highway", "track", "tracktype", "grade2", "surface", "fine_gravel");
          case TRACK ->
              street.widthM() > 2.5
                  ? tags("highway", "track", "tracktype", "grade3", "surface", "ground")
                  : tags("highway", "path", "surface", "ground");
        };
    if (street.name().equals("Bridge road")) {
      tags.put("highway", "unclassified");
      tags.remove("tracktype");
    }
    tags.put("name", street.name());
    tags.put("width", metres(street.widthM()));
    return tags;
  }

  private void bridge() {
    for (Arches arches : town.arches()) {
      if (arches.parapetM() > 0) {
        ways.add(
            new Way(
                new ArrayList<>(List.of(arches.from(), arches.to())),
                tags(
                    "highway",
                    "unclassified",
                    "name",
                    arches.name(),
                    "surface",
                    "sett",
                    "bridge",
                    "yes",
                    "layer",
                    "1",
                    "width",
                    metres(arches.thicknessM()))));
        double bearing = arches.from().bearingTo(arches.to());
        double half = arches.thicknessM() / 2;
        map.area(
            List.of(
                arches.from().along(bearing - 90, half),
                arches.to().along(bearing - 90, half),
                arches.to().along(bearing + 90, half),
                arches.from().along(bearing + 90, half)),
            tags("man_made", "bridge", "name", arches.name(), "layer", "1"));
      }
    }
  }

  /** Ways that the photos do not show: the road out of the valley and ways across grass. */
  private void unpaved() {
    ways.add(
        new Way(
            new ArrayList<>(
                List.of(
                    new Point(590, -142),
                    new Point(760, -190),
                    new Point(1300, -420),
                    new Point(2400, -700))),
            tags("highway", "tertiary", "name", "Camino Vilano", "surface", "asphalt")));
    ways.add(
        new Way(
            new ArrayList<>(List.of(new Point(-15, -169), new Point(-6, -60), new Point(-3, -9.5))),
            tags("highway", "path", "surface", "grass")));
    ways.add(
        new Way(
            new ArrayList<>(List.of(new Point(310, -217), new Point(312, -310))),
            tags("highway", "track", "tracktype", "grade4", "surface", "grass")));
    ways.add(
        new Way(
            new ArrayList<>(
                List.of(
                    new Point(-15, -169).along(230, 380),
                    new Point(-120, -430),
                    new Point(36, -427),
                    new Point(118, -352),
                    new Point(206, -330),
                    new Point(312, -310))),
            tags("highway", "track", "tracktype", "grade5", "surface", "grass")));
  }

  /** Puts a common node where a street ends at another one. */
  private void join() {
    for (Way way : ways) {
      for (boolean atStart : new boolean[] {true, false}) {
        Point end = way.line().get(atStart ? 0 : way.line().size() - 1);
        boolean joined =
            ways.stream().anyMatch(other -> other != way && other.line().contains(end));
        if (!joined) {
          meet(way, end, atStart);
        }
      }
    }
  }

  private void meet(Way way, Point end, boolean atStart) {
    for (Way other : ways) {
      if (other == way) {
        continue;
      }
      for (int i = 1; i < other.line().size(); i++) {
        Point foot = Lines.foot(other.line().get(i - 1), other.line().get(i), end);
        if (foot.to(end) < MEETS_M) {
          other.line().add(i, foot);
          way.line().add(atStart ? 0 : way.line().size(), foot);
          return;
        }
      }
    }
  }

  private void arcade() {
    for (Building b : town.buildings()) {
      if (b.kind() == Building.Kind.ARCADED) {
        Point middle =
            b.centre().along(b.axisDeg() - 90, b.widthM() / 2 + Brezaluz.ARCADE_DEPTH_M / 2);
        double half = b.lengthM() / 2;
        map.line(
            List.of(middle.along(b.axisDeg() + 180, half), middle.along(b.axisDeg(), half)),
            tags("highway", "footway", "covered", "arcade", "surface", "paving_stones"));
      }
    }
  }

  private void forVisitors() {
    map.area(
        List.of(new Point(268, 96), new Point(286, 88), new Point(280, 74), new Point(262, 82)),
        tags(
            "amenity",
            "parking",
            "name",
            "Aparcamiento de la Loma",
            "surface",
            "gravel",
            "fee",
            "no",
            "capacity",
            "14"));
    map.node(
        new Point(128, -33),
        tags("amenity", "toilets", "fee", "no", "wheelchair", "yes", "access", "yes"));
    map.node(
        new Point(66, -76),
        tags("amenity", "cafe", "name", "Café Zarapito", "outdoor_seating", "yes"));
    map.node(new Point(126, -47), tags("amenity", "drinking_water"));
    map.node(new Point(0, 0), tags("place", "village", "name", Brezaluz.TOWN));
    map.node(new Point(-620, 560), tags("natural", "peak", "name", "Tordel", "ele", elevation()));
  }

  private String elevation() {
    return metres(town.terrain().elevationM(new Point(-620, 560)));
  }
}

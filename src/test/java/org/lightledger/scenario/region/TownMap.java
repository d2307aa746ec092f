package org.lightledger.scenario.region;

import static org.lightledger.scenario.region.OsmXml.tags;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.lightledger.scenario.Barrier;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.Building;
import org.lightledger.scenario.Building.Kind;
import org.lightledger.scenario.Point;

/**
 * Draws the invented town as a mapper would who had walked and measured it: what stands there with
 * its height, what grows there, and how one gets about.
 */
final class TownMap {
  /** A storey of the houses, and their plinth, as they are built, metres. */
  private static final double STOREY_M = 2.75;

  private static final double PLINTH_M = 0.6;

  private final Brezaluz town;
  private final OsmXml map = new OsmXml();

  TownMap(Brezaluz town) {
    this.town = town;
  }

  OsmXml draw() {
    for (Building building : town.buildings()) {
      building(building);
    }
    for (Barrier barrier : town.barriers()) {
      barrier(barrier);
    }
    new Greenery(town, map).draw();
    new WayNet(town, map).draw();
    return map;
  }

  static String metres(double value) {
    String text = String.format(Locale.ROOT, "%.1f", value);
    return text.endsWith(".0") ? text.substring(0, text.length() - 2) : text;
  }

  private void building(Building b) {
    switch (b.kind()) {
      case CHURCH -> {
        String use = b.name().contains("Chapel") ? "chapel" : "church";
        Map<String, String> tags = named(b, use);
        tags.put("amenity", "place_of_worship");
        gabled(b, tags);
        map.area(b.outline(), tags);
      }
      case TOWER -> {
        Map<String, String> tags = named(b, "tower");
        tags.put("man_made", "tower");
        tags.put("tower:type", "bell_tower");
        roof(b, tags, "pyramidal");
        map.area(b.outline(), tags);
      }
      case ARCADED -> arcaded(b);
      case MILL -> {
        Map<String, String> tags = named(b, "yes");
        tags.put("historic", "watermill");
        gabled(b, tags);
        map.area(b.outline(), tags);
      }
      case BARN -> {
        Map<String, String> tags = named(b, "barn");
        gabled(b, tags);
        map.area(b.outline(), tags);
      }
      case SHED -> washHouse(b);
      case HOUSE, STONE_HOUSE -> house(b);
    }
  }

  private static Map<String, String> named(Building b, String use) {
    return tags("building", use, "name", b.name());
  }

  private static void gabled(Building b, Map<String, String> tags) {
    roof(b, tags, "gabled");
    tags.put("roof:orientation", "along");
  }

  private static void roof(Building b, Map<String, String> tags, String shape) {
    tags.put("height", metres(b.ridgeM()));
    tags.put("roof:shape", shape);
    tags.put("roof:height", metres(b.ridgeM() - b.eavesM()));
  }

  /** Houses by a street are measured; of the farms somebody has only counted the storeys. */
  private void house(Building b) {
    boolean farm = b.name().contains("farm");
    Map<String, String> tags = tags("building", farm ? "farm" : "house");
    int levels = Math.max(1, (int) ((b.eavesM() - PLINTH_M) / STOREY_M));
    tags.put("building:levels", Integer.toString(levels));
    if (!farm) {
      int space = b.name().lastIndexOf(' ');
      tags.put("addr:street", b.name().substring(0, space));
      tags.put("addr:housenumber", b.name().substring(space + 1));
      tags.put("addr:city", Brezaluz.TOWN);
      gabled(b, tags);
    } else {
      tags.put("roof:levels", "1");
    }
    if (b.kind() == Kind.STONE_HOUSE) {
      tags.put("building:material", "stone");
    }
    map.area(b.outline(), tags);
  }

  /**
   * A hall whose upper storey stands on arches before its wall. The outline is that of all parts,
   * as the scheme for simple buildings in three dimensions wants it.
   */
  private void arcaded(Building b) {
    double back = b.widthM() / 2;
    double front = back + Brezaluz.ARCADE_DEPTH_M;
    double above = town.footUp(b);
    double underArches =
        town.arches().stream()
            .filter(arches -> arches.humpM() == 0)
            .mapToDouble(arches -> arches.topUp() - above)
            .findFirst()
            .orElseThrow();
    Map<String, String> whole = named(b, "civic");
    whole.put("height", metres(b.ridgeM()));
    map.area(strip(b, -back, front), whole);
    Map<String, String> hall = tags("building:part", "yes");
    gabled(b, hall);
    map.area(b.outline(), hall);
    Map<String, String> upper = tags("building:part", "arcade");
    upper.put("height", metres(b.eavesM()));
    upper.put("min_height", metres(underArches));
    map.area(strip(b, back, front), upper);
  }

  /** A part of a building's length between two distances to the left of its long axis. */
  private static List<Point> strip(Building b, double from, double to) {
    double half = b.lengthM() / 2;
    return List.of(
        corner(b, half, from), corner(b, half, to), corner(b, -half, to), corner(b, -half, from));
  }

  private static Point corner(Building b, double ahead, double left) {
    return b.centre().along(b.axisDeg(), ahead).along(b.axisDeg() - 90, left);
  }

  /** A roof on posts: one sees through beneath it. */
  private void washHouse(Building b) {
    Map<String, String> tags = named(b, "roof");
    tags.put("historic", "lavoir");
    gabled(b, tags);
    tags.put("min_height", metres(b.eavesM()));
    map.area(b.outline(), tags);
  }

  private void barrier(Barrier b) {
    boolean wall = b.kind() == Barrier.Kind.STONE_WALL;
    Map<String, String> tags = new LinkedHashMap<>();
    tags.put("barrier", wall ? "wall" : "hedge");
    if (wall) {
      tags.put("wall", "stone");
    }
    tags.put("height", metres(b.heightM()));
    tags.put("width", metres(b.widthM()));
    map.line(b.line(), tags);
  }
}

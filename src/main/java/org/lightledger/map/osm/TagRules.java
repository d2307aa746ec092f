package org.lightledger.map.osm;

import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.FeatureKind;
import org.lightledger.skyline.buildings.ObstructionKind;

/**
 * What tags make of a thing (OpenStreetMap wiki, "Map features"). A thing may be both an
 * obstruction and drawn, as a wood that is a park.
 */
final class TagRules {
  /** The keys that any rule looks at; the others are not kept. */
  static final Set<String> KEYS =
      Set.of(
          "amenity",
          "area",
          "bridge",
          "building",
          "building:levels",
          "building:min_level",
          "building:part",
          "diameter_crown",
          "height",
          "highway",
          "landuse",
          "leisure",
          "location",
          "man_made",
          "min_height",
          "name",
          "natural",
          "place",
          "railway",
          "roof:height",
          "roof:shape",
          "roof:orientation",
          "barrier",
          "roof:levels",
          "tunnel",
          "type",
          "waterway",
          "width");

  private TagRules() {}

  /** What an area hides, if anything. */
  static @Nullable ObstructionKind areaObstruction(Map<String, String> tags) {
    if ((isBuilding(tags) || isPart(tags)) && !"underground".equals(tags.get("location"))) {
      return ObstructionKind.BUILDING;
    }
    if ("wood".equals(tags.get("natural")) || "forest".equals(tags.get("landuse"))) {
      return ObstructionKind.WOOD;
    }
    return null;
  }

  static boolean isBuilding(Map<String, String> tags) {
    return said(tags, "building");
  }

  static boolean isPart(Map<String, String> tags) {
    return said(tags, "building:part");
  }

  private static boolean said(Map<String, String> tags, String key) {
    String value = tags.get(key);
    return value != null && !value.equals("no");
  }

  /** What an area is drawn as. */
  static @Nullable FeatureKind area(Map<String, String> tags) {
    if (tags.containsKey("highway")) {
      return FeatureKind.SQUARE;
    }
    FeatureKind kind =
        switch (value(tags, "natural")) {
          case "water" -> FeatureKind.WATER;
          case "beach", "sand", "shingle" -> FeatureKind.BEACH;
          case "grassland", "heath" -> FeatureKind.MEADOW;
          default -> null;
        };
    if (kind == null) {
      kind =
          switch (value(tags, "leisure")) {
            case "park", "garden" -> FeatureKind.PARK;
            case "common", "pitch", "playground", "golf_course" -> FeatureKind.GRASS;
            case "swimming_pool" -> FeatureKind.WATER;
            default -> null;
          };
    }
    if (kind == null) {
      kind =
          switch (value(tags, "landuse")) {
            case "grass", "village_green", "recreation_ground" -> FeatureKind.GRASS;
            case "meadow", "orchard", "vineyard" -> FeatureKind.MEADOW;
            case "cemetery" -> FeatureKind.PARK;
            case "basin", "reservoir" -> FeatureKind.WATER;
            default -> null;
          };
    }
    if (kind == null) {
      kind =
          switch (value(tags, "amenity")) {
            case "parking" -> FeatureKind.PARKING;
            case "fountain" -> FeatureKind.WATER;
            default -> null;
          };
    }
    if (kind == null && Set.of("riverbank", "dock").contains(value(tags, "waterway"))) {
      kind = FeatureKind.WATER;
    }
    if (kind == null && "square".equals(tags.get("place"))) {
      kind = FeatureKind.SQUARE;
    }
    if (kind == null && Set.of("pier", "breakwater").contains(value(tags, "man_made"))) {
      kind = FeatureKind.PIER_AREA;
    }
    return kind;
  }

  /** What a line is drawn as. */
  static @Nullable FeatureKind line(Map<String, String> tags) {
    if (tags.containsKey("highway")) {
      return switch (value(tags, "highway")) {
        case "motorway", "motorway_link", "trunk", "trunk_link" -> FeatureKind.MOTORWAY;
        case "primary", "primary_link" -> FeatureKind.MAJOR_ROAD;
        case "secondary", "secondary_link", "tertiary", "tertiary_link" -> FeatureKind.MIDDLE_ROAD;
        case "residential", "unclassified", "living_street", "road", "busway", "bus_guideway" ->
            FeatureKind.MINOR_ROAD;
        case "service" -> FeatureKind.SERVICE_ROAD;
        case "pedestrian" -> FeatureKind.WALKING_STREET;
        case "footway", "path", "cycleway", "bridleway" -> FeatureKind.PATH;
        case "track" -> FeatureKind.TRACK;
        case "steps" -> FeatureKind.STEPS;
        default -> FeatureKind.OTHER_WAY;
      };
    }
    FeatureKind kind =
        switch (value(tags, "waterway")) {
          case "river", "canal" -> FeatureKind.RIVER;
          case "stream", "ditch", "drain" -> FeatureKind.STREAM;
          default -> null;
        };
    if (kind == null) {
      kind =
          switch (value(tags, "railway")) {
            case "rail", "light_rail", "narrow_gauge", "funicular", "monorail", "subway" ->
                FeatureKind.RAIL;
            case "tram" -> FeatureKind.TRAM;
            default -> null;
          };
    }
    if (kind == null && Set.of("pier", "breakwater", "groyne").contains(value(tags, "man_made"))) {
      kind = FeatureKind.PIER;
    }
    return kind;
  }

  /** What a point is drawn as. */
  static @Nullable FeatureKind point(Map<String, String> tags) {
    if (tags.containsKey("name")) {
      FeatureKind place =
          switch (value(tags, "place")) {
            case "city" -> FeatureKind.CITY;
            case "town" -> FeatureKind.TOWN;
            case "village" -> FeatureKind.VILLAGE;
            case "suburb", "quarter", "borough", "city_district" -> FeatureKind.SUBURB;
            case "hamlet",
                "neighbourhood",
                "neighborhood",
                "locality",
                "isolated_dwelling",
                "square" ->
                FeatureKind.LOCALITY;
            default -> null;
          };
      if (place != null) {
        return place;
      }
      if (Set.of("station", "halt").contains(value(tags, "railway"))) {
        return FeatureKind.STATION;
      }
    }
    return switch (value(tags, "amenity")) {
      case "toilets" -> FeatureKind.TOILETS;
      case "parking" -> FeatureKind.PARKING_POINT;
      default -> null;
    };
  }

  static boolean isTree(Map<String, String> tags) {
    return "tree".equals(tags.get("natural"));
  }

  static boolean isTreeRow(Map<String, String> tags) {
    return "tree_row".equals(tags.get("natural"));
  }

  /**
   * Whether it is a wall, a hedge or a fence of boards whose height is given: few are as high as a
   * face, so none is assumed.
   */
  static boolean isBarrier(Map<String, String> tags) {
    return tags.containsKey("height")
        && switch (value(tags, "barrier")) {
          case "wall", "city_wall", "retaining_wall", "hedge" -> true;
          default -> false;
        };
  }

  static boolean isHedge(Map<String, String> tags) {
    return "hedge".equals(tags.get("barrier"));
  }

  static boolean isCoast(Map<String, String> tags) {
    return "coastline".equals(tags.get("natural"));
  }

  /** Whether a closed way with these tags is an area, though it could be a line as well. */
  static boolean isArea(Map<String, String> tags) {
    String area = tags.get("area");
    if ("yes".equals(area)
        || isBuilding(tags)
        || isPart(tags)
        || "platform".equals(tags.get("highway"))) {
      return true;
    }
    boolean line =
        tags.containsKey("highway")
            || isTreeRow(tags)
            || isBarrier(tags)
            || tags.containsKey("railway")
            || "no".equals(area);
    return !line && (areaObstruction(tags) != null || area(tags) != null || point(tags) != null);
  }

  /** Below the ground -1, on a bridge 1, else 0. */
  static int level(Map<String, String> tags) {
    if (said(tags, "tunnel")) {
      return -1;
    }
    return said(tags, "bridge") ? 1 : 0;
  }

  private static String value(Map<String, String> tags, String key) {
    return tags.getOrDefault(key, "");
  }

  /** The name that tags give; null for none. */
  static @Nullable String name(Map<String, String> tags) {
    String name = tags.get("name");
    return name == null || name.isBlank() ? null : name.strip();
  }
}

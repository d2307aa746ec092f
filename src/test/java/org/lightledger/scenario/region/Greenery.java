package org.lightledger.scenario.region;

import static org.lightledger.scenario.region.OsmXml.tags;
import static org.lightledger.scenario.region.TownMap.metres;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.lightledger.scenario.Brezaluz;
import org.lightledger.scenario.Field;
import org.lightledger.scenario.Lines;
import org.lightledger.scenario.Point;
import org.lightledger.scenario.Tree;

/**
 * Trees, woods, fields and water on the map. Near the spots every tree is on it; the river's banks
 * far up and down are woods; trees that stand alone farther out are not on it.
 */
final class Greenery {
  /** How far from a spot single trees are mapped, metres: own choice. */
  private static final double TREES_MAPPED_M = 520;

  /** How wide the woods along the banks are, from the river's middle line, metres. */
  private static final double BANK_FROM_M = 10.5;

  private static final double BANK_TO_M = 21;

  private final Brezaluz town;
  private final OsmXml map;

  Greenery(Brezaluz town, OsmXml map) {
    this.town = town;
    this.map = map;
  }

  void draw() {
    Set<Tree> inRows = new HashSet<>();
    avenue(inRows);
    for (Tree tree : town.trees()) {
      if (inRows.contains(tree) || nearSpot(tree.at())) {
        map.node(tree.at(), tree(tree));
      }
    }
    woods();
    for (Field field : town.fields()) {
      field(field);
    }
    water();
  }

  private boolean nearSpot(Point at) {
    return town.spots().stream().anyMatch(spot -> spot.at().to(at) < TREES_MAPPED_M);
  }

  /** The two rows of poplars: ways whose nodes are the trees, since one sees between them. */
  private void avenue(Set<Tree> inRows) {
    List<Point> street =
        town.streets().stream()
            .filter(way -> way.name().equals("Poplar Avenue"))
            .findFirst()
            .orElseThrow()
            .line();
    double along = street.get(0).bearingTo(street.get(1));
    List<Point> left = new ArrayList<>();
    List<Point> right = new ArrayList<>();
    for (Tree tree : town.trees()) {
      if (tree.kind() == Tree.Kind.POPLAR && Lines.distance(street, tree.at()) < 6) {
        inRows.add(tree);
        double off = street.get(0).bearingTo(tree.at()) - along;
        (off < 0 ? left : right).add(tree.at());
      }
    }
    for (List<Point> row : List.of(left, right)) {
      map.line(row, tags("natural", "tree_row", "leaf_type", "broadleaved", "height", "15.5"));
    }
  }

  private static Map<String, String> tree(Tree tree) {
    boolean shrub = tree.kind() == Tree.Kind.SHRUB;
    Map<String, String> tags = tags("natural", shrub ? "shrub" : "tree");
    boolean evergreen = tree.kind() == Tree.Kind.HOLM_OAK || tree.kind() == Tree.Kind.CYPRESS;
    tags.put("leaf_type", tree.kind() == Tree.Kind.CYPRESS ? "needleleaved" : "broadleaved");
    tags.put("leaf_cycle", evergreen ? "evergreen" : "deciduous");
    tags.put("genus", genus(tree.kind()));
    tags.put("height", metres(tree.heightM()));
    tags.put("diameter_crown", metres(crownM(tree)));
    return tags;
  }

  private static String genus(Tree.Kind kind) {
    return switch (kind) {
      case POPLAR -> "Populus";
      case WILLOW -> "Salix";
      case ASH -> "Fraxinus";
      case HOLM_OAK -> "Quercus";
      case FRUIT -> "Malus";
      case CYPRESS -> "Cupressus";
      case SHRUB -> "Crataegus";
    };
  }

  /**
   * The width of a crown as trees of a kind are drawn, metres: as far as it hides more than half of
   * what is behind it when it has its leaves, measured on the drawn trees.
   */
  private static double crownM(Tree tree) {
    double pattern =
        switch (tree.kind()) {
          case POPLAR -> 1.4;
          case WILLOW -> 2.8;
          case ASH -> 3.4;
          case HOLM_OAK -> 3.3;
          case FRUIT -> 1.7;
          case CYPRESS -> 1.1;
          case SHRUB -> 1.0;
        };
    return pattern * tree.heightM() / tree.kind().patternM();
  }

  /** Woods on both banks above and below the town. */
  private void woods() {
    List<Point> course = town.river().course();
    List<Point> above = new ArrayList<>();
    List<Point> below = new ArrayList<>();
    for (Point at : course) {
      double away = Math.hypot(at.east(), at.north());
      if (away > 850 && away < 1500) {
        (at.north() > 0 ? above : below).add(at);
      }
    }
    bank("Soto Alto", above, -1);
    bank("Soto Alto", above, 1);
    bank("Soto Bajo", below, -1);
    bank("Soto Bajo", below, 1);
  }

  private void bank(String name, List<Point> course, int side) {
    List<Point> outline = new ArrayList<>(Lines.beside(course, side * BANK_FROM_M));
    List<Point> outer = new ArrayList<>(Lines.beside(course, side * BANK_TO_M));
    java.util.Collections.reverse(outer);
    outline.addAll(outer);
    map.area(
        outline, tags("natural", "wood", "name", name, "leaf_type", "broadleaved", "height", "9"));
  }

  private void field(Field field) {
    Map<String, String> tags =
        switch (field.use()) {
          case MEADOW -> tags("leisure", "park", "surface", "grass");
          case LAWN -> tags("leisure", "garden");
          case WHEAT -> tags("landuse", "farmland", "crop", "wheat");
          case PAVED -> tags("highway", "pedestrian", "area", "yes", "surface", "paving_stones");
          case EARTH -> tags("landuse", "farmyard", "surface", "ground");
          case ORCHARD -> tags("landuse", "orchard", "trees", "apple_trees");
          case PEBBLES -> tags("natural", "shingle", "surface", "pebblestone");
          case REEDS -> tags("natural", "wetland", "wetland", "reedbed");
        };
    tags.put("name", field.name());
    map.area(field.outline(), tags);
  }

  private void water() {
    double half = town.river().widthM() / 2;
    List<Point> course = town.river().course();
    map.line(
        course, tags("waterway", "river", "name", town.river().name(), "width", metres(2 * half)));
    List<Point> outline = new ArrayList<>(Lines.beside(course, -half));
    List<Point> other = new ArrayList<>(Lines.beside(course, half));
    java.util.Collections.reverse(other);
    outline.addAll(other);
    map.area(outline, tags("natural", "water", "water", "river", "name", town.river().name()));
    lagoon();
  }

  /** A lagoon with an island behind the hill, where no photo looks. */
  private void lagoon() {
    Point middle = new Point(-1180, 1120);
    List<Point> shore = Lines.around(middle, 120, 70, 24);
    List<Point> island = Lines.around(middle.along(60, 30), 22, 14, 12);
    map.multipolygon(
        List.of(map.area(shore, Map.of())),
        List.of(map.area(island, Map.of())),
        tags("type", "multipolygon", "natural", "water", "water", "lake", "name", "Laguna Vilana"));
  }
}

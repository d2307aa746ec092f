package org.lightledger.scenario;

import java.util.List;

/**
 * The whole invented town and its land.
 *
 * @param river the river
 * @param terrain the ground
 * @param buildings all buildings
 * @param arches bridge and arcade
 * @param barriers walls and hedges
 * @param streets streets, lanes and paths
 * @param fields pieces of ground
 * @param trees all trees within a kilometre and some beyond
 * @param spots where a subject can stand
 */
public record Brezaluz(
    River river,
    Terrain terrain,
    List<Building> buildings,
    List<Arches> arches,
    List<Barrier> barriers,
    List<Street> streets,
    List<Field> fields,
    List<Tree> trees,
    List<Spot> spots) {
  /** The town's name. */
  public static final String TOWN = "Brezaluz";

  /** The invented portrait studio whose ledger the demo shows. */
  public static final String STUDIO = "Estudio Vencejo Claro";

  /** Builds the model. It is the same every time. */
  public static Brezaluz model() {
    River river = TownPlan.river();
    List<Building> buildings = TownPlan.buildings();
    List<Street> streets = TownPlan.streets();
    List<Field> fields = TownPlan.fields();
    List<Spot> spots = SpotList.spots();
    List<Tree> trees = new Planting(river, buildings, streets, fields, spots).trees();
    Terrain terrain = new Terrain(river);
    Building hall =
        buildings.stream()
            .filter(building -> building.kind() == Building.Kind.ARCADED)
            .findFirst()
            .orElseThrow();
    return new Brezaluz(
        river,
        terrain,
        buildings,
        TownPlan.arches(footUp(terrain, hall)),
        TownPlan.barriers(),
        streets,
        fields,
        trees,
        spots);
  }

  /** The spot of a name. */
  public Spot spot(String name) {
    return spots.stream()
        .filter(spot -> spot.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("no spot is called " + name));
  }

  /**
   * Height of a building's foot: the lowest ground at its corners, or the highest where it has an
   * open floor, metres above the water.
   */
  public double footUp(Building building) {
    return footUp(terrain, building);
  }

  private static double footUp(Terrain terrain, Building building) {
    boolean floored =
        building.kind() == Building.Kind.ARCADED || building.kind() == Building.Kind.SHED;
    var corners = building.outline().stream().mapToDouble(terrain::up);
    return floored ? corners.max().orElseThrow() : corners.min().orElseThrow();
  }

  /** Height of what one stands on: the ground, or the floor of the arcade or wash house. */
  public double floorUp(Point place) {
    double up = terrain.up(place);
    for (Building building : buildings) {
      boolean arcade = building.kind() == Building.Kind.ARCADED;
      if (arcade || building.kind() == Building.Kind.SHED) {
        double deeper = arcade ? ARCADE_DEPTH_M : 0;
        Building floor =
            new Building(
                building.name(),
                building.kind(),
                building.centre().along(building.axisDeg() - 90, deeper / 2),
                building.axisDeg(),
                building.lengthM(),
                building.widthM() + deeper,
                0,
                0);
        if (Lines.inside(floor.outline(), place)) {
          up = Math.max(up, footUp(building) + 0.05);
        }
      }
    }
    return up;
  }

  /** How far an arcade reaches out before its building's wall, metres. */
  public static final double ARCADE_DEPTH_M = 2.7;
}

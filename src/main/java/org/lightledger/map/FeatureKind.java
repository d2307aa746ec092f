package org.lightledger.map;

/**
 * What is drawn on the map besides buildings and trees, which are obstructions. In the order in
 * which it is drawn, the lowest first.
 */
public enum FeatureKind {
  /** The open sea, an area. */
  SEA(Form.AREA, 10),
  /** A park or garden. */
  PARK(Form.AREA, 11),
  /** Grass, a village green, a sports ground. */
  GRASS(Form.AREA, 12),
  /** A meadow. */
  MEADOW(Form.AREA, 11),
  /** Sand or shingle beside water. */
  BEACH(Form.AREA, 12),
  /** A lake, a pond, a river's bed. */
  WATER(Form.AREA, 10),
  /** Where cars are parked. */
  PARKING(Form.AREA, 15),
  /** A square or another area to walk or drive on. */
  SQUARE(Form.AREA, 14),
  /** A pier or jetty, an area. */
  PIER_AREA(Form.AREA, 14),
  /** The outline of a building whose parts are obstructions of their own. */
  BUILDING_OUTLINE(Form.AREA, 14),
  /** A brook or ditch. */
  STREAM(Form.LINE, 14),
  /** A river or canal. */
  RIVER(Form.LINE, 10),
  /** A pier or jetty, a line. */
  PIER(Form.LINE, 14),
  /** A way on foot or by bicycle. */
  PATH(Form.LINE, 14),
  /** Stairs. */
  STEPS(Form.LINE, 15),
  /** A way for field and forest. */
  TRACK(Form.LINE, 13),
  /** A street for walking. */
  WALKING_STREET(Form.LINE, 14),
  /** A drive, an alley, the way through a car park. */
  SERVICE_ROAD(Form.LINE, 14),
  /** A street to live in. */
  MINOR_ROAD(Form.LINE, 13),
  /** A road between villages or quarters. */
  MIDDLE_ROAD(Form.LINE, 11),
  /** A main road. */
  MAJOR_ROAD(Form.LINE, 10),
  /** A motorway. */
  MOTORWAY(Form.LINE, 10),
  /** A way of another kind, such as one that is being built; kept, and not drawn. */
  OTHER_WAY(Form.LINE, FeatureKind.NEVER),
  /** A tramway. */
  TRAM(Form.LINE, 14),
  /** A railway. */
  RAIL(Form.LINE, 11),
  /** A station. */
  STATION(Form.POINT, 15),
  /** Where cars are parked, a point. */
  PARKING_POINT(Form.POINT, 16),
  /** Toilets. */
  TOILETS(Form.POINT, 16),
  /** A city. */
  CITY(Form.POINT, 10),
  /** A town. */
  TOWN(Form.POINT, 10),
  /** A village. */
  VILLAGE(Form.POINT, 12),
  /** A part of a city or town. */
  SUBURB(Form.POINT, 13),
  /** A hamlet, a neighbourhood, a place with a name. */
  LOCALITY(Form.POINT, 15);

  /** A zoom that no map has. */
  private static final int NEVER = 99;

  /** How it lies on the ground. */
  public enum Form {
    /** A place. */
    POINT,
    /** A line. */
    LINE,
    /** An area. */
    AREA
  }

  private final Form form;
  private final int fromZoom;

  FeatureKind(Form form, int fromZoom) {
    this.form = form;
    this.fromZoom = fromZoom;
  }

  /**
   * How it lies on the ground.
   *
   * @return point, line or area
   */
  public Form form() {
    return form;
  }

  /**
   * From which zoom on it is drawn.
   *
   * @return the zoom of the web's map tiles: own choice
   */
  public int fromZoom() {
    return fromZoom;
  }
}

package org.lightledger.web;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;

/** Areas as GeoJSON (RFC 7946): always a MultiPolygon, longitude before latitude. */
final class GeoJsonText {
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  /** Seven decimals of a degree are a centimetre (RFC 7946, section 11.2). */
  private static final double DECIMALS = 1e7;

  private GeoJsonText() {}

  /** A geometry of polygons; other parts are refused. */
  static ObjectNode area(Geometry area) {
    ArrayNode polygons = NODES.arrayNode();
    for (int i = 0; i < area.getNumGeometries(); i++) {
      if (!(area.getGeometryN(i) instanceof Polygon polygon)) {
        throw new IllegalArgumentException(
            "expected polygons, found " + area.getGeometryN(i).getGeometryType());
      }
      if (!polygon.isEmpty()) {
        polygons.add(polygon(polygon));
      }
    }
    ObjectNode geometry = NODES.objectNode();
    geometry.put("type", "MultiPolygon");
    geometry.set("coordinates", polygons);
    return geometry;
  }

  /** A collection of one area, or of none. */
  static ObjectNode collection(Geometry area) {
    ObjectNode collection = NODES.objectNode();
    collection.put("type", "FeatureCollection");
    ArrayNode features = collection.putArray("features");
    if (!area.isEmpty()) {
      ObjectNode feature = features.addObject();
      feature.put("type", "Feature");
      feature.set("properties", NODES.objectNode());
      feature.set("geometry", area(area));
    }
    return collection;
  }

  private static JsonNode polygon(Polygon polygon) {
    ArrayNode rings = NODES.arrayNode();
    rings.add(ring(polygon.getExteriorRing()));
    for (int i = 0; i < polygon.getNumInteriorRing(); i++) {
      rings.add(ring(polygon.getInteriorRingN(i)));
    }
    return rings;
  }

  private static JsonNode ring(LineString ring) {
    ArrayNode positions = NODES.arrayNode();
    for (Coordinate corner : ring.getCoordinates()) {
      positions.addArray().add(rounded(corner.x)).add(rounded(corner.y));
    }
    return positions;
  }

  private static double rounded(double angleDeg) {
    return Math.round(angleDeg * DECIMALS) / DECIMALS;
  }
}

package org.lightledger.skyline.buildings;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import org.lightledger.geo.GeoPoint;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;

/** GeoJSON geometries (RFC 7946, section 3.1) as areas on the ground. */
final class GeoJsonShapes {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  private GeoJsonShapes() {}

  static Geometry area(JsonNode geometry) {
    JsonNode coordinates = geometry.path("coordinates");
    return switch (geometry.path("type").asText()) {
      case "Polygon" -> polygon(coordinates);
      case "MultiPolygon" -> {
        List<Polygon> parts = new ArrayList<>();
        for (JsonNode part : coordinates) {
          parts.add(polygon(part));
        }
        yield FACTORY.createMultiPolygon(parts.toArray(Polygon[]::new));
      }
      default ->
          throw new IllegalArgumentException(
              "expected a Polygon, MultiPolygon or LineString, found \""
                  + geometry.path("type").asText()
                  + "\"");
    };
  }

  /** A line grown to both sides; its ends are cut straight. */
  static Geometry row(JsonNode geometry, double widthM) {
    JsonNode coordinates = geometry.path("coordinates");
    Geometry line;
    if ("LineString".equals(geometry.path("type").asText())) {
      line = FACTORY.createLineString(positions(coordinates, 2));
    } else {
      List<Geometry> parts = new ArrayList<>();
      for (JsonNode part : coordinates) {
        parts.add(FACTORY.createLineString(positions(part, 2)));
      }
      line = FACTORY.buildGeometry(parts);
    }
    return Crowns.row(line, widthM);
  }

  private static Polygon polygon(JsonNode rings) {
    if (!rings.isArray() || rings.isEmpty()) {
      throw new IllegalArgumentException("expected a polygon with an outer ring, found none");
    }
    LinearRing outer = ring(rings.get(0));
    LinearRing[] holes = new LinearRing[rings.size() - 1];
    for (int i = 0; i < holes.length; i++) {
      holes[i] = ring(rings.get(i + 1));
    }
    return FACTORY.createPolygon(outer, holes);
  }

  private static LinearRing ring(JsonNode positions) {
    return FACTORY.createLinearRing(positions(positions, 4));
  }

  private static Coordinate[] positions(JsonNode positions, int fewest) {
    if (positions.size() < fewest) {
      throw new IllegalArgumentException(
          "expected at least %d positions, found %d".formatted(fewest, positions.size()));
    }
    Coordinate[] coordinates = new Coordinate[positions.size()];
    for (int i = 0; i < coordinates.length; i++) {
      JsonNode position = positions.get(i);
      if (!position.path(0).isNumber() || !position.path(1).isNumber()) {
        throw new IllegalArgumentException(
            "expected a position [longitude, latitude], found " + position);
      }
      GeoPoint place = new GeoPoint(position.get(1).doubleValue(), position.get(0).doubleValue());
      coordinates[i] = new Coordinate(place.longitudeDeg(), place.latitudeDeg());
    }
    return coordinates;
  }
}

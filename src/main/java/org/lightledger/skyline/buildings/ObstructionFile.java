package org.lightledger.skyline.buildings;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.locationtech.jts.geom.Geometry;

/**
 * Obstructions from GeoJSON (RFC 7946): a feature collection of polygons, multipolygons and, for
 * tree rows, lines.
 *
 * <p>Properties, in metres where they are lengths:
 *
 * <ul>
 *   <li>{@code kind}: building, tree_row or wood; else {@code natural=tree_row}, {@code
 *       natural=wood} or {@code landuse=forest} as in OpenStreetMap; else a line is a tree row and
 *       an area a building
 *   <li>{@code height}, else {@code height_m}; else {@code building:levels} times 3
 *   <li>{@code min_height}, else {@code building:min_level} times 3; else 0
 *   <li>{@code width} of a tree row; else 6 (own choice)
 *   <li>{@code ground_z_m}: the ground it stands on, in the elevation model's heights
 *   <li>{@code name}, else {@code id}, else the feature's own id
 * </ul>
 */
public final class ObstructionFile {
  private static final ObjectMapper JSON = new ObjectMapper();

  private ObstructionFile() {}

  /**
   * What a file says.
   *
   * @param obstructions those that can be used
   * @param problems one line for each feature that can not
   */
  public record Read(List<Obstruction> obstructions, List<String> problems) {}

  /**
   * Reads a file.
   *
   * @param file GeoJSON in UTF-8
   * @return its obstructions and problems
   * @throws IOException when it can not be read or is not a feature collection
   */
  public static Read read(Path file) throws IOException {
    return read(String.valueOf(file.getFileName()), Files.readAllBytes(file));
  }

  /**
   * Reads what a file holds.
   *
   * @param name the file's name, for what is told of it
   * @param content GeoJSON in UTF-8
   * @return its obstructions and problems
   * @throws IOException when it is not a feature collection
   */
  public static Read read(String name, byte[] content) throws IOException {
    JsonNode root;
    try {
      root = JSON.readTree(content);
    } catch (JsonProcessingException e) {
      throw new IOException(
          "%s: expected GeoJSON, found something else near line %d; export it again"
              .formatted(name, e.getLocation() == null ? 1 : e.getLocation().getLineNr()),
          e);
    }
    if (!"FeatureCollection".equals(root.path("type").asText())
        || !root.path("features").isArray()) {
      throw new IOException(
          "%s: expected a GeoJSON FeatureCollection, found type \"%s\""
              .formatted(name, root.path("type").asText()));
    }
    List<Obstruction> obstructions = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    int number = 0;
    for (JsonNode feature : root.path("features")) {
      number++;
      try {
        obstructions.add(obstruction(feature, number));
      } catch (IllegalArgumentException e) {
        problems.add(
            "%s: feature %d (%s): %s".formatted(name, number, id(feature, number), e.getMessage()));
      }
    }
    return new Read(List.copyOf(obstructions), List.copyOf(problems));
  }

  private static Obstruction obstruction(JsonNode feature, int number) {
    JsonNode properties = feature.path("properties");
    JsonNode geometry = feature.path("geometry");
    boolean line = geometry.path("type").asText().endsWith("LineString");
    ObstructionKind kind = kind(properties, line);
    Geometry outline =
        line
            ? GeoJsonShapes.row(
                geometry, Heights.lengthM(properties, "width").orElse(Crowns.ROW_WIDTH_M))
            : GeoJsonShapes.area(geometry);
    OptionalDouble given = Heights.lengthM(properties, "height");
    if (given.isEmpty()) {
      given = Heights.lengthM(properties, "height_m");
    }
    OptionalDouble levels = Heights.lengthM(properties, "building:levels");
    HeightSource source =
        given.isPresent()
            ? HeightSource.GIVEN
            : levels.isPresent() ? HeightSource.LEVELS : HeightSource.ASSUMED;
    double heightM =
        switch (source) {
          case GIVEN -> given.getAsDouble();
          case LEVELS -> levels.getAsDouble() * Heights.STOREY_M;
          case ASSUMED -> kind.assumedHeightM();
        };
    double minHeightM =
        Heights.lengthM(properties, "min_height")
            .orElse(
                Heights.lengthM(properties, "building:min_level").orElse(0.0) * Heights.STOREY_M);
    OptionalDouble ground = Heights.lengthM(properties, "ground_z_m");
    return new Obstruction(
        id(feature, number),
        kind,
        outline,
        heightM,
        minHeightM,
        source,
        ground.isPresent() ? ground.getAsDouble() : null);
  }

  private static ObstructionKind kind(JsonNode properties, boolean line) {
    String kind = properties.path("kind").asText("");
    String natural = properties.path("natural").asText("");
    if (kind.isEmpty()) {
      boolean wood =
          "wood".equals(natural) || "forest".equals(properties.path("landuse").asText(""));
      if (wood) {
        return ObstructionKind.WOOD;
      }
      return line || "tree_row".equals(natural)
          ? ObstructionKind.TREE_ROW
          : ObstructionKind.BUILDING;
    }
    return switch (kind) {
      case "building" -> ObstructionKind.BUILDING;
      case "tree_row" -> ObstructionKind.TREE_ROW;
      case "wood" -> ObstructionKind.WOOD;
      default ->
          throw new IllegalArgumentException(
              "expected kind building, tree_row or wood, found \"" + kind + "\"");
    };
  }

  private static String id(JsonNode feature, int number) {
    JsonNode properties = feature.path("properties");
    for (JsonNode name :
        List.of(properties.path("name"), properties.path("id"), feature.path("id"))) {
      if (name.isValueNode() && !name.isNull()) {
        return name.asText();
      }
    }
    return "#" + number;
  }
}

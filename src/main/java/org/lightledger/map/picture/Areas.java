package org.lightledger.map.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;

/** Draws areas: water, green, squares, woods, houses. */
final class Areas {
  private static final double EDGES_FROM_ZOOM = 15.5;

  private final Graphics2D graphics;
  private final MapLook look;
  private final Shapes shapes;
  private final double zoom;

  Areas(Graphics2D graphics, MapLook look, Shapes shapes, double zoom) {
    this.graphics = graphics;
    this.look = look;
    this.shapes = shapes;
    this.zoom = zoom;
  }

  /** The ground; larger areas first, so that none is hidden by one around it. */
  void ground(List<MapFeature> features, List<MapObstruction> obstructions) {
    for (FeatureKind kind : FeatureKind.values()) {
      if (kind == FeatureKind.WATER) {
        trees(obstructions, ObstructionKind.WOOD, look.wood);
      }
      Color colour = colour(kind);
      if (colour != null) {
        features.stream()
            .filter(feature -> feature.kind() == kind)
            .sorted(
                Comparator.comparingDouble((MapFeature feature) -> feature.geometry().getArea())
                    .reversed())
            .forEach(feature -> fill(shapes.path(feature.geometry()), colour));
      }
    }
  }

  private @Nullable Color colour(FeatureKind kind) {
    return switch (kind) {
      case SEA, WATER -> look.water;
      case PARK -> look.park;
      case GRASS -> look.grass;
      case MEADOW -> look.meadow;
      case BEACH -> look.beach;
      case PARKING -> look.parking;
      case SQUARE -> look.square;
      case PIER_AREA -> look.land;
      default -> null;
    };
  }

  /** Houses and their parts. */
  void houses(List<MapFeature> features, List<MapObstruction> obstructions) {
    for (MapFeature feature : features) {
      if (feature.kind() == FeatureKind.BUILDING_OUTLINE) {
        house(shapes.path(feature.geometry()));
      }
    }
    Obstruction last = null;
    for (MapObstruction found : obstructions) {
      Obstruction body = found.obstruction();
      if (body.kind() == ObstructionKind.BUILDING && !isOn(last, body)) {
        last = body;
        house(shapes.path(body.outline()));
      }
    }
  }

  private void house(Path2D path) {
    fill(path, look.building);
    if (zoom >= EDGES_FROM_ZOOM) {
      graphics.setColor(look.buildingEdge);
      graphics.setStroke(new BasicStroke(0.8f));
      graphics.draw(path);
    }
  }

  /** Single trees and rows, through which the ground is seen. */
  /** Whether a body is part of the roof of the one before. */
  private static boolean isOn(@Nullable Obstruction house, Obstruction body) {
    return house != null
        && house.id().equals(body.id())
        && house.outline().getEnvelopeInternal().contains(body.outline().getEnvelopeInternal());
  }

  void crowns(List<MapObstruction> obstructions) {
    Color colour = new Color(look.tree.getRed(), look.tree.getGreen(), look.tree.getBlue(), 150);
    trees(obstructions, ObstructionKind.TREE, colour);
    trees(obstructions, ObstructionKind.TREE_ROW, colour);
  }

  private void trees(List<MapObstruction> obstructions, ObstructionKind kind, Color colour) {
    for (MapObstruction obstruction : obstructions) {
      if (obstruction.obstruction().kind() == kind) {
        fill(shapes.path(obstruction.obstruction().outline()), colour);
      }
    }
  }

  private void fill(Path2D path, Color colour) {
    graphics.setColor(colour);
    graphics.fill(path);
  }
}

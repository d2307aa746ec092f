package org.lightledger.map.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.Comparator;
import java.util.List;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapFeature;

/** Draws lines: water, paths, roads, rails. Widths in pixels are own choice. */
final class Ways {
  /** Widths are told for this zoom and grow by this much with each. */
  private static final double WIDTHS_AT_ZOOM = 15.0;

  private static final double GROWTH = 1.5;
  private static final double EDGE_PX = 1.6;

  private final Graphics2D graphics;
  private final MapLook look;
  private final Shapes shapes;
  private final double zoom;

  Ways(Graphics2D graphics, MapLook look, Shapes shapes, double zoom) {
    this.graphics = graphics;
    this.look = look;
    this.shapes = shapes;
    this.zoom = zoom;
  }

  private static double widthAt15Px(FeatureKind kind) {
    return switch (kind) {
      case MOTORWAY -> 6.5;
      case MAJOR_ROAD -> 5.5;
      case MIDDLE_ROAD -> 4.6;
      case MINOR_ROAD -> 3.6;
      case WALKING_STREET -> 2.8;
      case SERVICE_ROAD -> 1.9;
      case RIVER, PIER -> 3.0;
      case STEPS -> 1.5;
      case STREAM, TRACK, RAIL, TRAM -> 1.0;
      default -> 0.8;
    };
  }

  double widthPx(FeatureKind kind) {
    return Math.max(0.9, widthAt15Px(kind) * Math.pow(GROWTH, zoom - WIDTHS_AT_ZOOM));
  }

  static boolean isRoad(FeatureKind kind) {
    return switch (kind) {
      case MOTORWAY, MAJOR_ROAD, MIDDLE_ROAD, MINOR_ROAD, WALKING_STREET, SERVICE_ROAD -> true;
      default -> false;
    };
  }

  private static boolean isMain(FeatureKind kind) {
    return kind == FeatureKind.MOTORWAY || kind == FeatureKind.MAJOR_ROAD;
  }

  /** Lines of water and piers, which lie below everything that crosses them. */
  void water(List<MapFeature> features) {
    for (MapFeature feature : features) {
      switch (feature.kind()) {
        case RIVER, STREAM -> {
          if (feature.level() >= 0) {
            stroke(feature, look.water, widthPx(feature.kind()));
          }
        }
        case PIER -> stroke(feature, look.land, widthPx(feature.kind()));
        default -> {
          // Not water.
        }
      }
    }
  }

  /** Everything one travels on, of one level. */
  void travel(List<MapFeature> features, int level) {
    List<MapFeature> drawn =
        features.stream()
            .filter(feature -> feature.level() == level)
            .sorted(Comparator.comparing(MapFeature::kind))
            .toList();
    if (level < 0) {
      drawn.stream().filter(feature -> isRoad(feature.kind())).forEach(this::tunnel);
      return;
    }
    drawn.forEach(this::path);
    drawn.stream().filter(feature -> isRoad(feature.kind())).forEach(this::edge);
    for (MapFeature feature : drawn) {
      if (isRoad(feature.kind())) {
        stroke(feature, look.road, widthPx(feature.kind()));
      }
    }
    drawn.forEach(this::rail);
  }

  private void edge(MapFeature road) {
    double width = widthPx(road.kind());
    if (width > 1.5) {
      stroke(road, isMain(road.kind()) ? look.mainRoadEdge : look.roadEdge, width + EDGE_PX);
    } else {
      stroke(road, isMain(road.kind()) ? look.mainRoadEdge : look.roadEdge, width + 0.6);
    }
  }

  private void tunnel(MapFeature road) {
    double width = widthPx(road.kind());
    dashed(road, look.roadEdge, Math.min(1.2, width), 4.0, 4.0);
  }

  private void path(MapFeature feature) {
    double width = Math.min(2.2, widthPx(feature.kind()));
    switch (feature.kind()) {
      case PATH -> dashed(feature, look.path, width, 4.0, 2.5);
      case TRACK -> dashed(feature, look.path, width, 8.0, 3.0);
      case STEPS -> dashed(feature, look.path, widthPx(feature.kind()), 1.2, 1.6);
      default -> {
        // Not a path.
      }
    }
  }

  private void rail(MapFeature feature) {
    if (feature.kind() == FeatureKind.RAIL || feature.kind() == FeatureKind.TRAM) {
      double width = Math.min(2.0, widthPx(feature.kind()));
      stroke(feature, look.rail, width);
      if (feature.kind() == FeatureKind.RAIL && zoom >= 16.0) {
        graphics.setStroke(
            new BasicStroke(
                (float) (width + 3.0),
                BasicStroke.CAP_BUTT,
                BasicStroke.JOIN_ROUND,
                1.0f,
                new float[] {1.2f, 8.0f},
                0.0f));
        graphics.draw(shapes.path(feature.geometry()));
      }
    }
  }

  private void stroke(MapFeature feature, Color colour, double widthPx) {
    Path2D path = shapes.path(feature.geometry());
    int cap = feature.level() == 1 ? BasicStroke.CAP_BUTT : BasicStroke.CAP_ROUND;
    graphics.setColor(colour);
    graphics.setStroke(new BasicStroke((float) widthPx, cap, BasicStroke.JOIN_ROUND));
    graphics.draw(path);
  }

  private void dashed(
      MapFeature feature, Color colour, double widthPx, double dashPx, double gapPx) {
    graphics.setColor(colour);
    graphics.setStroke(
        new BasicStroke(
            (float) widthPx,
            BasicStroke.CAP_BUTT,
            BasicStroke.JOIN_ROUND,
            1.0f,
            new float[] {(float) dashPx, (float) gapPx},
            0.0f));
    graphics.draw(shapes.path(feature.geometry()));
  }
}

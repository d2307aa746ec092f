package org.lightledger.map.picture;

import java.awt.Color;
import java.awt.Font;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.lightledger.map.FeatureKind;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.map.MapView;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.linearref.LengthIndexedLine;
import org.locationtech.jts.operation.linemerge.LineMerger;

/** Which names are written, in which order: places, water, streets, parks, houses, signs. */
final class Names {
  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** A name comes again along a line after so much: own choice. */
  private static final double AGAIN_AFTER_PX = 420.0;

  private static final double HOUSES_FROM_ZOOM = 17.0;
  private static final double AREAS_FROM_ZOOM = 15.0;

  private final Lettering lettering;
  private final MapLook look;
  private final MapView view;

  Names(Lettering lettering, MapLook look, MapView view) {
    this.lettering = lettering;
    this.look = look;
    this.view = view;
  }

  void write(List<MapFeature> features, List<MapObstruction> obstructions) {
    places(features);
    lines(features, FeatureKind.RIVER, 13.0, look.waterText, Font.ITALIC, 12.0);
    areas(features, FeatureKind.WATER, look.waterText, Font.ITALIC);
    lines(features, FeatureKind.MOTORWAY, 14.0, look.text, Font.PLAIN, 11.5);
    lines(features, FeatureKind.MAJOR_ROAD, 14.0, look.text, Font.PLAIN, 11.5);
    lines(features, FeatureKind.MIDDLE_ROAD, 15.0, look.text, Font.PLAIN, 11.5);
    lines(features, FeatureKind.MINOR_ROAD, 15.5, look.text, Font.PLAIN, 11.0);
    lines(features, FeatureKind.WALKING_STREET, 16.0, look.text, Font.PLAIN, 11.0);
    areas(features, FeatureKind.PARK, look.text, Font.ITALIC);
    areas(features, FeatureKind.SQUARE, look.text, Font.PLAIN);
    signs(features);
    lines(features, FeatureKind.SERVICE_ROAD, 17.0, look.text, Font.PLAIN, 10.5);
    lines(features, FeatureKind.STEPS, 17.0, look.text, Font.PLAIN, 10.5);
    lines(features, FeatureKind.PATH, 17.0, look.text, Font.PLAIN, 10.5);
    lines(features, FeatureKind.STREAM, 16.0, look.waterText, Font.ITALIC, 10.5);
    houses(obstructions, features);
  }

  private void places(List<MapFeature> features) {
    for (FeatureKind kind :
        List.of(
            FeatureKind.CITY,
            FeatureKind.TOWN,
            FeatureKind.VILLAGE,
            FeatureKind.SUBURB,
            FeatureKind.STATION,
            FeatureKind.LOCALITY)) {
      double sizePx =
          switch (kind) {
            case CITY -> 17.0;
            case TOWN -> 15.0;
            case VILLAGE, SUBURB -> 13.0;
            default -> 11.5;
          };
      boolean large = kind.compareTo(FeatureKind.VILLAGE) <= 0 && kind != FeatureKind.STATION;
      Font font = Lettering.font(large ? Font.BOLD : Font.PLAIN, sizePx);
      for (MapFeature feature : named(features, kind)) {
        if (view.zoom() >= kind.fromZoom() && (view.zoom() < 17.5 || !large)) {
          atPoint(feature.geometry(), name(feature), font, large ? look.placeText : look.text);
        }
      }
    }
  }

  private static List<MapFeature> named(List<MapFeature> features, FeatureKind kind) {
    return features.stream()
        .filter(feature -> feature.kind() == kind && feature.name() != null)
        .sorted(Comparator.comparing(MapFeature::sourceId))
        .toList();
  }

  private static String name(MapFeature feature) {
    return String.valueOf(feature.name());
  }

  private void atPoint(Geometry geometry, String name, Font font, Color colour) {
    Coordinate at = geometry.getCoordinate();
    lettering.middle(folded(name, 16), font, colour, view.xPx(at.x), view.yPx(at.y));
  }

  private void signs(List<MapFeature> features) {
    Font font = Lettering.font(Font.BOLD, 10.5);
    for (MapFeature feature : features) {
      String sign =
          switch (feature.kind()) {
            case PARKING, PARKING_POINT -> "P";
            case TOILETS -> "WC";
            default -> null;
          };
      if (sign != null && view.zoom() >= FeatureKind.TOILETS.fromZoom()) {
        Point at = feature.geometry().getInteriorPoint();
        lettering.middle(List.of(sign), font, look.text, view.xPx(at.getX()), view.yPx(at.getY()));
      }
    }
  }

  private void areas(List<MapFeature> features, FeatureKind kind, Color colour, int style) {
    if (view.zoom() >= AREAS_FROM_ZOOM || kind == FeatureKind.WATER) {
      Font font = Lettering.font(style, 11.5);
      for (MapFeature feature : named(features, kind)) {
        inside(feature.geometry(), name(feature), font, colour);
      }
    }
  }

  private void houses(List<MapObstruction> obstructions, List<MapFeature> features) {
    if (view.zoom() < HOUSES_FROM_ZOOM) {
      return;
    }
    Font font = Lettering.font(Font.PLAIN, 10.5);
    for (MapFeature feature : named(features, FeatureKind.BUILDING_OUTLINE)) {
      inside(feature.geometry(), name(feature), font, look.text);
    }
    for (MapObstruction obstruction : obstructions) {
      String name = obstruction.name();
      if (name != null) {
        inside(obstruction.obstruction().outline(), name, font, look.text);
      }
    }
  }

  /** A name in an area that has room for it. */
  private void inside(Geometry area, String name, Font font, Color colour) {
    Envelope box = area.getEnvelopeInternal();
    double widthPx = view.xPx(box.getMaxX()) - view.xPx(box.getMinX());
    List<String> lines = folded(name, 14);
    double needPx = 0.0;
    for (String line : lines) {
      needPx = Math.max(needPx, Lettering.widthPx(font, line));
    }
    if (needPx <= widthPx * 1.1) {
      Point at = area.getInteriorPoint();
      lettering.middle(lines, font, colour, view.xPx(at.getX()), view.yPx(at.getY()));
    }
  }

  /** A long name in two lines, cut at the blank nearest to its middle. */
  private static List<String> folded(String name, int longest) {
    int best = -1;
    for (int i = name.indexOf(' '); i >= 0; i = name.indexOf(' ', i + 1)) {
      if (best < 0 || Math.abs(2 * i - name.length()) < Math.abs(2 * best - name.length())) {
        best = i;
      }
    }
    return name.length() <= longest || best < 0
        ? List.of(name)
        : List.of(name.substring(0, best), name.substring(best + 1));
  }

  private void lines(
      List<MapFeature> features,
      FeatureKind kind,
      double fromZoom,
      Color colour,
      int style,
      double sizePx) {
    if (view.zoom() < fromZoom) {
      return;
    }
    Font font = Lettering.font(style, sizePx);
    Map<String, LineMerger> byName = new TreeMap<>();
    for (MapFeature feature : named(features, kind)) {
      if (feature.level() < 0) {
        continue;
      }
      LineMerger merger = byName.computeIfAbsent(name(feature), name -> new LineMerger());
      for (LineString line : inPixels(feature.geometry())) {
        merger.add(line);
      }
    }
    byName.forEach((name, merger) -> along(merged(merger), name, font, colour));
  }

  private static List<LineString> merged(LineMerger merger) {
    List<LineString> lines = new ArrayList<>();
    for (Object line : merger.getMergedLineStrings()) {
      lines.add((LineString) line);
    }
    lines.sort(Comparator.comparingDouble(LineString::getLength).reversed());
    return lines;
  }

  private void along(List<LineString> lines, String name, Font font, Color colour) {
    double needPx = Lettering.widthPx(font, name) + 6.0;
    for (LineString line : lines) {
      double lengthPx = line.getLength();
      if (lengthPx < needPx) {
        return;
      }
      LengthIndexedLine indexed = new LengthIndexedLine(line);
      int times = (int) Math.max(1.0, Math.floor(lengthPx / AGAIN_AFTER_PX));
      double sharePx = lengthPx / times;
      for (int i = 0; i < times; i++) {
        write(indexed, i * sharePx, sharePx - needPx, name, font, colour);
      }
    }
  }

  /** In the middle of a stretch, else a little before or after it. */
  private void write(
      LengthIndexedLine line, double fromPx, double sparePx, String name, Font font, Color colour) {
    for (double part : new double[] {0.5, 0.3, 0.7, 0.1, 0.9}) {
      if (lettering.along(line, fromPx + Math.max(0.0, sparePx) * part, name, font, colour)) {
        return;
      }
    }
  }

  private List<LineString> inPixels(Geometry geometry) {
    List<LineString> lines = new ArrayList<>();
    for (int i = 0; i < geometry.getNumGeometries(); i++) {
      Coordinate[] places = geometry.getGeometryN(i).getCoordinates();
      Coordinate[] pixels = new Coordinate[places.length];
      for (int j = 0; j < places.length; j++) {
        pixels[j] = new Coordinate(view.xPx(places[j].x), view.yPx(places[j].y));
      }
      lines.add(FACTORY.createLineString(pixels));
    }
    return lines;
  }
}

package org.lightledger.web;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapView;
import org.lightledger.map.picture.MapLook;
import org.lightledger.map.picture.MapPicture;
import org.lightledger.session.KeptPlan;
import org.lightledger.store.LedgerSession;

/** The small map of a plan: one picture of the land, no tiles, with the stops drawn over it. */
final class FieldGround {
  private static final int WIDTH_PX = 640;
  private static final int HEIGHT_PX = 480;

  /** Some hundred metres across: own choice. */
  private static final double DEEPEST_ZOOM = 16.5;

  /** Room around the outermost stop, part of the box, and at least so many degrees: own choice. */
  private static final double ROOM = 0.2;

  private static final double LEAST_ROOM_DEG = 0.0008;
  private static final double LOOK_PX = 42;
  private static final double LONGEST_SCALE_PX = 160;

  private FieldGround() {}

  /** A place of the plan. */
  private record Place(String label, String name, GeoPoint point, @Nullable Bearing facing) {}

  /** The window that shows a plan. */
  private static MapView view(List<Place> places) {
    double west = places.stream().mapToDouble(p -> p.point().longitudeDeg()).min().orElseThrow();
    double east = places.stream().mapToDouble(p -> p.point().longitudeDeg()).max().orElseThrow();
    double south = places.stream().mapToDouble(p -> p.point().latitudeDeg()).min().orElseThrow();
    double north = places.stream().mapToDouble(p -> p.point().latitudeDeg()).max().orElseThrow();
    double aside = Math.max(LEAST_ROOM_DEG, (east - west) * ROOM);
    double above = Math.max(LEAST_ROOM_DEG, (north - south) * ROOM);
    return MapView.of(
        new MapBox(
            Math.max(-180, west - aside),
            Math.max(-85, south - above),
            Math.min(180, east + aside),
            Math.min(85, north + above)),
        WIDTH_PX,
        HEIGHT_PX,
        DEEPEST_ZOOM);
  }

  static FieldPage.@Nullable Ground of(LedgerSession session, KeptPlan plan, String query) {
    List<Place> places = places(session, plan);
    if (places.isEmpty()) {
      return null;
    }
    MapView view = view(places);
    List<FieldPage.Mark> marks = new ArrayList<>();
    Set<GeoPoint> drawn = new HashSet<>();
    for (Place place : places) {
      if (drawn.add(place.point())) {
        marks.add(mark(view, place, labels(places, place.point())));
      }
    }
    double metresPerPx = metresPerPx(view, places.get(0).point());
    double scaleM = roundLength(LONGEST_SCALE_PX * metresPerPx);
    return new FieldPage.Ground(
        session.maps().content(view).regions().isEmpty() ? null : "/field/ground" + query,
        WIDTH_PX,
        HEIGHT_PX,
        places.stream()
            .map(p -> px(view.xPx(p.point().longitudeDeg())) + "," + px(y(view, p.point())))
            .collect(Collectors.joining(" ")),
        marks,
        px(scaleM / metresPerPx),
        scaleM >= 1000 ? Words.plain(scaleM / 1000) + " km" : Words.plain(scaleM) + " m",
        "North is up. "
            + places.stream()
                .map(place -> place.label() + ": " + place.name())
                .collect(Collectors.joining("; "))
            + ".");
  }

  /** The land below, as PNG; nothing when there is no plan or no map of its region. */
  static Optional<byte[]> picture(LedgerSession session, KeptPlan plan) {
    List<Place> places = places(session, plan);
    if (places.isEmpty()) {
      return Optional.empty();
    }
    MapView view = view(places);
    MapContent content = session.maps().content(view);
    if (content.regions().isEmpty()) {
      return Optional.empty();
    }
    BufferedImage picture = MapPicture.draw(view, content, MapLook.LIGHT, 2);
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 16);
    try {
      ImageIO.write(picture, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Optional.of(out.toByteArray());
  }

  /** Where all meet, then the stops, in order. */
  private static List<Place> places(LedgerSession session, KeptPlan plan) {
    List<Place> places = new ArrayList<>();
    GeoPoint meeting = plan.meeting().place();
    if (meeting != null) {
      places.add(new Place("M", "meeting spot", meeting, null));
    }
    for (KeptPlan.Stop stop : plan.stops()) {
      int number = places.size() + (meeting == null ? 1 : 0);
      session
          .spots()
          .find(stop.spotId())
          .ifPresent(
              spot ->
                  places.add(
                      new Place(
                          String.valueOf(number), spot.name(), spot.position(), stop.facing())));
    }
    return places;
  }

  /** A spot that is stopped at twice carries both numbers. */
  private static String labels(List<Place> places, GeoPoint point) {
    return places.stream()
        .filter(place -> place.point().equals(point))
        .map(Place::label)
        .collect(Collectors.joining(","));
  }

  private static FieldPage.Mark mark(MapView view, Place place, String labels) {
    double x = view.xPx(place.point().longitudeDeg());
    double y = y(view, place.point());
    Bearing facing = place.facing();
    double angle = facing == null ? 0 : Math.toRadians(facing.trueDeg());
    return new FieldPage.Mark(
        labels,
        px(x),
        px(y),
        facing == null ? null : px(x + LOOK_PX * Math.sin(angle)),
        facing == null ? null : px(y - LOOK_PX * Math.cos(angle)));
  }

  private static double y(MapView view, GeoPoint point) {
    return view.yPx(point.latitudeDeg());
  }

  private static double metresPerPx(MapView view, GeoPoint at) {
    double east = Math.min(180, at.longitudeDeg() + 100 * view.degreesPerPx());
    double west = Math.max(-180, east - 200 * view.degreesPerPx());
    return Geodesy.distanceM(
            new GeoPoint(at.latitudeDeg(), west), new GeoPoint(at.latitudeDeg(), east))
        / ((east - west) / view.degreesPerPx());
  }

  /** The longest of 1, 2 or 5 times a power of ten that is not longer. */
  private static double roundLength(double mostM) {
    double power = Math.pow(10, Math.floor(Math.log10(mostM)));
    return mostM >= 5 * power ? 5 * power : mostM >= 2 * power ? 2 * power : power;
  }

  private static String px(double value) {
    return String.format(Locale.ROOT, "%.1f", value);
  }
}

package org.lightledger.web;

import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.map.MapBox;
import org.lightledger.skyline.buildings.CastShadow;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.Obstructions;
import org.lightledger.skyline.buildings.ShadowOptions;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Location;

/**
 * The shadows on the ground of a box at an instant, as an area and in words.
 *
 * @param area the shaded area, longitude before latitude; empty when there is none
 * @param words where the sun stands and which spots lie in the shadow
 */
record GroundShadows(Geometry area, String words) {
  /** The longest side of a box: with the shadows' reach all of a town is read. Own choice. */
  static final double MOST_SIDE_M = 2000;

  /** Spots that are named, on either side: own choice. */
  private static final int MOST_NAMED = 8;

  /** A spot this near tells the clocks of a place: own choice. */
  private static final double NEAR_M = 50_000;

  private static final GeometryFactory FACTORY = new GeometryFactory();

  /** What keeps a box from being looked at, or nothing. */
  static Optional<String> refusal(MapBox box) {
    double middleDeg = (box.southDeg() + box.northDeg()) / 2;
    double highM =
        Geodesy.distanceM(
            new GeoPoint(box.southDeg(), box.westDeg()),
            new GeoPoint(box.northDeg(), box.westDeg()));
    double wideM =
        box.eastDeg() - box.westDeg() > 1
            ? Double.POSITIVE_INFINITY
            : Geodesy.distanceM(
                new GeoPoint(middleDeg, box.westDeg()), new GeoPoint(middleDeg, box.eastDeg()));
    double longestM = Math.max(highM, wideM);
    if (!(highM > 0 && wideM > 0)) {
      return Optional.of("Expected a part of the map with a width and a height, found none.");
    }
    return longestM <= MOST_SIDE_M
        ? Optional.empty()
        : Optional.of(
            String.format(
                Locale.ROOT,
                "Shadows are drawn where the map shows at most %.0f km from side to side; now it"
                    + " shows %s. Zoom in.",
                MOST_SIDE_M / 1000,
                longestM > 1e6
                    ? "far more"
                    : String.format(Locale.ROOT, "%.1f km", longestM / 1000)));
  }

  /** Casts the shadows in a box that is not refused. */
  static GroundShadows of(
      LedgerSession session, SunEphemeris sun, MapBox box, OffsetDateTime at, ZoneId zone) {
    GeoPoint middle = new GeoPoint(box.envelope().centre().y, box.envelope().centre().x);
    SunDirection direction = sun.direction(at.toInstant(), middle);
    String when =
        "At " + Words.hour(at) + " on " + Words.day(at.toLocalDate()) + " (" + zone.getId() + ") ";
    if (!(direction.apparentAltitudeDeg() > 0)) {
      return new GroundShadows(
          FACTORY.createPolygon(),
          when
              + "the sun is not up: it stands "
              + Words.fineDegrees(Math.abs(direction.apparentAltitudeDeg()))
              + " below the horizon, and nothing casts a shadow.");
    }
    ShadowOptions options = ShadowOptions.STANDARD;
    double reachM =
        options.longestM() + Geodesy.distanceM(middle, new GeoPoint(box.northDeg(), box.eastDeg()));
    List<Obstruction> around = session.obstructions().near(middle, reachM);
    CastShadow cast =
        CastShadow.within(Obstructions.of(around, null), box.envelope(), direction, options)
            .orElseThrow();
    return new GroundShadows(
        cast.area(),
        when
            + "the sun stands at "
            + Words.sun(direction)
            + ". "
            + found(cast)
            + (cast.cut()
                ? String.format(
                    Locale.ROOT,
                    " The sun is so low that a shadow is longer than %.0f km: it is cut there, and"
                        + " what lies farther is not known.",
                    options.longestM() / 1000)
                : "")
            + spots(session, box, cast));
  }

  private static String found(CastShadow cast) {
    if (cast.obstructions() == 0) {
      return "No building or tree is known whose shadow could fall here.";
    }
    return Words.count(cast.obstructions(), "building or tree was", "buildings and trees were")
        + " looked at.";
  }

  private static String spots(LedgerSession session, MapBox box, CastShadow cast) {
    List<String> shaded = new ArrayList<>();
    List<String> outside = new ArrayList<>();
    IndexedPointInAreaLocator locator =
        cast.area().isEmpty() ? null : new IndexedPointInAreaLocator(cast.area());
    for (Spot spot : session.spots().all()) {
      Coordinate place =
          new Coordinate(spot.position().longitudeDeg(), spot.position().latitudeDeg());
      if (box.envelope().contains(place)) {
        boolean in = locator != null && locator.locate(place) != Location.EXTERIOR;
        (in ? shaded : outside).add(spot.name());
      }
    }
    return cast.obstructions() == 0
        ? ""
        : named(" In the shadow: ", shaded) + named(" Not in it: ", outside);
  }

  private static String named(String before, List<String> names) {
    if (names.isEmpty()) {
      return "";
    }
    int more = names.size() - MOST_NAMED;
    return before
        + String.join(", ", names.subList(0, Math.min(MOST_NAMED, names.size())))
        + (more > 0 ? " and " + Words.count(more, "more spot", "more spots") : "")
        + ".";
  }

  /** The zone of the nearest spot, else the one in which most spots lie. */
  static ZoneId zone(House house, LedgerSession session, GeoPoint place) {
    return session
        .spotSearch()
        .nearest(place, NEAR_M)
        .map(NearSpot::spot)
        .map(Spot::zone)
        .orElseGet(() -> house.zone(session.spots().all()));
  }
}

package org.lightledger.web;

import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapBox;
import org.lightledger.store.LedgerSession;
import org.lightledger.sun.SunEphemeris;
import org.locationtech.jts.geom.GeometryFactory;

/** The shadows on the ground, as GeoJSON for the map and in words. */
final class ShadowRoutes {
  private static final int FIRST_YEAR = 1900;
  private static final int LAST_YEAR = 2200;

  /** What a page without a map looks at around its place, to either side: own choice. */
  private static final double AROUND_M = 200;

  private static final double METRES_PER_DEGREE = 111_200;

  private final House house;
  private final SunEphemeris sun;

  ShadowRoutes(House house, SunEphemeris sun) {
    this.house = house;
    this.sun = sun;
  }

  void register(RoutesConfig routes) {
    routes.get("/surroundings/shadows", this::shadows);
  }

  private void shadows(Context ctx) {
    Fields fields = new Fields(ctx::queryParams);
    ctx.header("Cache-Control", "private, no-cache");
    MapBox box = box(fields);
    if (box == null) {
      refuse(ctx, words(fields));
      return;
    }
    String tooLarge = GroundShadows.refusal(box).orElse(null);
    if (tooLarge != null) {
      refuse(ctx, tooLarge);
      return;
    }
    Optional<GroundShadows> found = house.ledger().read(session -> cast(session, fields, box));
    if (found.isEmpty()) {
      refuse(ctx, words(fields));
      return;
    }
    ObjectNode answer = GeoJsonText.collection(found.get().area());
    answer.put("words", found.get().words());
    ctx.contentType("application/geo+json").result(answer.toString());
  }

  private Optional<GroundShadows> cast(LedgerSession session, Fields fields, MapBox box) {
    GeoPoint middle = new GeoPoint(box.envelope().centre().y, box.envelope().centre().x);
    ZoneId zone = GroundShadows.zone(house, session, middle);
    OffsetDateTime at = moment(fields, zone);
    return fields.problems().isEmpty() && at != null
        ? Optional.of(GroundShadows.of(session, sun, box, at, zone))
        : Optional.empty();
  }

  private static void refuse(Context ctx, String words) {
    ObjectNode answer = GeoJsonText.collection(new GeometryFactory().createPolygon());
    answer.put("words", words);
    ctx.status(422).contentType("application/geo+json").result(answer.toString());
  }

  private static String words(Fields fields) {
    return fields.problems().stream()
        .map(problem -> problem.label() + ": " + problem.message() + ".")
        .collect(Collectors.joining(" "));
  }

  /** South, west, north, east; degrees. */
  private static @Nullable MapBox box(Fields fields) {
    String text = fields.raw("box");
    String[] sides = text.split(",", -1);
    try {
      if (sides.length == 4) {
        return new MapBox(
            Double.parseDouble(sides[1]),
            Double.parseDouble(sides[0]),
            Double.parseDouble(sides[3]),
            Double.parseDouble(sides[2]));
      }
    } catch (IllegalArgumentException e) {
      fields.problem("box", "Part of the map", expected(text));
      return null;
    }
    fields.problem("box", "Part of the map", expected(text));
    return null;
  }

  private static String expected(String text) {
    return "expected south,west,north,east in degrees, not across longitude 180, found "
        + Fields.found(text);
  }

  /** The moment asked for, or null when it is not told or bad, which is then named. */
  private static @Nullable OffsetDateTime moment(Fields fields, ZoneId zone) {
    LocalDate day = fields.day("day", "Day");
    LocalTime at = fields.clock("at", "Hour");
    if (fields.raw("day").isEmpty()) {
      fields.problem("day", "Day", "expected a day such as 2026-12-15, found nothing");
    }
    if (fields.raw("at").isEmpty()) {
      fields.problem("at", "Hour", "expected a time such as 17:30, found nothing");
    }
    if (day == null || at == null) {
      return null;
    }
    if (day.getYear() < FIRST_YEAR || day.getYear() > LAST_YEAR) {
      fields.problem(
          "day",
          "Day",
          "expected a year from " + FIRST_YEAR + " to " + LAST_YEAR + ", found " + day.getYear());
      return null;
    }
    LocalDateTime local = day.atTime(at);
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(local);
    if (offsets.isEmpty()) {
      fields.problem(
          "at",
          "Hour",
          "expected a time that the clocks of "
              + zone.getId()
              + " show on that day, found "
              + Words.hour(at));
      return null;
    }
    return local.atOffset(offsets.get(0));
  }

  /** What a page shows of the shadows around a place; the map asks for the part that it shows. */
  ObstructionsPage.Shadows around(
      Fields fields, LedgerSession session, @Nullable GeoPoint place, String spot) {
    ZoneId zone =
        place == null
            ? house.zone(session.spots().all())
            : GroundShadows.zone(house, session, place);
    ZonedDateTime now = house.clock().instant().atZone(zone);
    boolean asked = fields.ticked("day") || fields.ticked("at");
    OffsetDateTime at = asked ? moment(fields, zone) : null;
    return new ObstructionsPage.Shadows(
        spot,
        fields.ticked("day") ? fields.raw("day") : now.toLocalDate().toString(),
        fields.ticked("at") ? fields.raw("at") : Words.hour(now.toLocalTime()),
        zone.getId(),
        at != null,
        at == null || place == null
            ? ""
            : GroundShadows.of(session, sun, around(place), at, zone).words());
  }

  private static MapBox around(GeoPoint place) {
    double highDeg = AROUND_M / METRES_PER_DEGREE;
    double wideDeg =
        Math.min(1, highDeg / Math.max(0.01, Math.cos(Math.toRadians(place.latitudeDeg()))));
    return new MapBox(
        Math.max(-180, place.longitudeDeg() - wideDeg),
        Math.max(-90, place.latitudeDeg() - highDeg),
        Math.min(180, place.longitudeDeg() + wideDeg),
        Math.min(90, place.latitudeDeg() + highDeg));
  }
}

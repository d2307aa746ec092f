package org.lightledger.web;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.ask.StayLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.outgoing.StopLight;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.web.chart.LightGlyph;

/** Shows a kept plan for the field, with the light that the stock tells now. */
final class FieldViews {
  private final SunEphemeris sun;

  FieldViews(SunEphemeris sun) {
    this.sun = sun;
  }

  FieldPage.Plan plan(LedgerSession session, KeptPlan plan, ZoneId zone) {
    GeoPoint meeting = plan.meeting().place();
    Spot first = session.spots().find(plan.stops().get(0).spotId()).orElseThrow();
    GeoPoint place = meeting == null ? first.position() : meeting;
    String words = plan.meeting().words();
    List<FieldPage.Stop> stops = new ArrayList<>();
    for (KeptPlan.Stop stop : plan.stops()) {
      stops.add(stop(session, plan.sky(), stop, stops.size() + 1, zone));
    }
    return new FieldPage.Plan(
        SessionWords.hour(plan.callTime(), zone),
        words.isEmpty() ? (meeting == null ? first.name() : SpotViews.position(place)) : words,
        geo(place),
        SessionWords.hour(plan.end(), zone),
        plan.sky() == Sky.OVERCAST ? "an overcast sky" : "a clear sky",
        stops);
  }

  private FieldPage.Stop stop(
      LedgerSession session, Sky sky, KeptPlan.Stop stop, int number, ZoneId zone) {
    Spot spot = session.spots().find(stop.spotId()).orElseThrow();
    Skyline skyline = SpotSky.known(session.skylines().find(spot.id()).orElse(null));
    Bearing facing = stop.facing();
    KeptPlan.Drive drive = stop.drive();
    StayLight light = StopLight.of(sun, stop, spot, skyline, sky, zone);
    return new FieldPage.Stop(
        String.valueOf(number),
        spot.name(),
        geo(spot.position()),
        drive == null ? "" : "Drive " + drive.minutes() + " min, " + drive.source().label(),
        SessionWords.hour(stop.arrive(), zone),
        window(stop.shootFrom(), stop.shootUntil(), zone),
        SessionWords.hour(stop.leave(), zone),
        outfit(stop, zone),
        facing == null ? "" : Words.bearing(facing),
        facing == null || light == null ? List.of() : lights(light, facing),
        light == null ? "" : suns(light),
        light == null ? "" : direct(light, sky),
        light == null ? "" : light.expectedWords(),
        light != null && light.needsSunCare(),
        HazardWords.advice(session.hazards().of(spot.id())),
        spot.cautions(),
        fallback(session, stop.fallbackSpotId()));
  }

  private static List<String> outfit(KeptPlan.Stop stop, ZoneId zone) {
    List<String> words = new ArrayList<>();
    words.add("Outfit " + stop.outfit());
    for (KeptPlan.Change change : stop.changes()) {
      words.add(
          "Change to outfit "
              + change.toOutfit()
              + ", "
              + window(change.from(), change.until(), zone));
    }
    return words;
  }

  private static List<FieldPage.Light> lights(StayLight light, Bearing facing) {
    double turnDeg = facing.turnToDeg(light.sunAtMiddle().azimuth());
    return light.spans().stream()
        .map(
            span ->
                new FieldPage.Light(
                    Words.window(span.window().from(), span.window().to()),
                    LightGlyph.of(span.light(), turnDeg),
                    Words.capital(span.light().label()),
                    Words.side(span.light(), turnDeg)))
        .toList();
  }

  private static String suns(StayLight light) {
    return Words.sun(light.sunAtStart()) + " at first, " + Words.sun(light.sunAtEnd()) + " at last";
  }

  /** When direct sun ends, or why there is none. */
  static String direct(StayLight light, Sky sky) {
    if (sky == Sky.OVERCAST) {
      return "No direct sun under an overcast sky";
    }
    OffsetDateTime until = light.directUntil();
    if (until != null) {
      return (light.directCertain()
              ? "Direct sun ends "
              : "Direct sun not certain; as modelled it ends ")
          + Words.hour(until);
    }
    if (light.sunAtStart().apparentAltitudeDeg() < 0) {
      return "No direct sun: it is down";
    }
    Boolean direct = light.directSun();
    if (direct == null) {
      return "Direct sun: not known here";
    }
    return direct
        ? "Direct sun half way; when it ends is not known"
        : "No direct sun half way through";
  }

  private static String fallback(LedgerSession session, @Nullable Long spotId) {
    return spotId == null ? "" : session.spots().find(spotId).map(Spot::name).orElse("");
  }

  private static String window(Instant from, Instant until, ZoneId zone) {
    return SessionWords.hour(from, zone) + " to " + SessionWords.hour(until, zone);
  }

  /** A place as phones hand it to their own map (RFC 5870). */
  private static String geo(GeoPoint point) {
    return String.format(Locale.ROOT, "geo:%.6f,%.6f", point.latitudeDeg(), point.longitudeDeg());
  }
}

package org.lightledger.web;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.ExpectedLight;
import org.lightledger.ask.Sky;
import org.lightledger.field.StopLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.KeptPlan;
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
    StopLight light =
        facing == null
            ? null
            : StopLight.of(
                sun, spot.position(), facing, skyline, sky, stop.shootFrom(), stop.shootUntil());
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
        facing == null || light == null ? List.of() : lights(light, facing, sky, zone),
        light == null ? "" : direct(light, sky, zone),
        light != null && light.stretches().stream().anyMatch(StopLight.Stretch::needsSunCare),
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

  private static List<FieldPage.Light> lights(
      StopLight light, Bearing facing, Sky sky, ZoneId zone) {
    List<FieldPage.Light> rows = new ArrayList<>();
    for (StopLight.Stretch stretch : light.stretches()) {
      double turnDeg = facing.turnToDeg(stretch.sun().azimuth());
      ExpectedLight expected =
          ExpectedLight.of(stretch.sun(), facing, stretch.light(), stretch.directSun(), sky);
      rows.add(
          new FieldPage.Light(
              window(stretch.from(), stretch.to(), zone),
              LightGlyph.of(stretch.light(), turnDeg),
              Words.capital(stretch.light().label()),
              Words.side(stretch.light(), turnDeg),
              Words.sun(stretch.sun())
                  + (stretch.directSun() == null ? "; direct sun: not known" : ""),
              expected.words()));
    }
    return rows;
  }

  private static String direct(StopLight light, Sky sky, ZoneId zone) {
    if (sky == Sky.OVERCAST) {
      return "No direct sun under an overcast sky";
    }
    Instant until = light.directUntil();
    boolean any =
        light.stretches().stream().anyMatch(stretch -> Boolean.TRUE.equals(stretch.directSun()));
    if (any && until != null) {
      return "Direct sun ends "
          + SessionWords.hour(until, zone)
          + (light.atMost() ? " or earlier: what stands there is only partly known" : "");
    }
    if (any) {
      return "Direct sun the whole time";
    }
    return light.stretches().stream().anyMatch(stretch -> stretch.directSun() == null)
        ? "Direct sun: not known here"
        : "No direct sun at this stop";
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

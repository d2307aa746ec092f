package org.lightledger.cli;

import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Facing;
import org.lightledger.spot.LightProfile;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.DroppedSpot;
import org.lightledger.store.Standing;

/** Writes spots and light profiles for machines and for people. */
final class SpotOutput {
  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm xxx", Locale.ROOT);

  private SpotOutput() {}

  static List<Map<String, @Nullable Object>> json(List<Spot> spots) {
    return spots.stream().map(spot -> fields(spot).map()).toList();
  }

  static Map<String, @Nullable Object> json(
      LightProfile profile, Standing standing, SpotSkyline around) {
    return fields(profile.spot())
        .put("positionByOwner", standing.byOwner())
        .put("positionRough", standing.rough())
        .put("perhapsUnderCover", standing.perhapsUnderCover())
        .put("statedErrors", standing.statedErrors())
        .put("wideErrors", standing.wideErrors())
        .put("notes", profile.spot().notes())
        .put("cautions", profile.spot().cautions())
        .put("skyline", around.skylineJson())
        .put("day", around.dayJson())
        .put("observations", profile.observations().stream().map(SpotOutput::observation).toList())
        .map();
  }

  private static Json.Fields fields(Spot spot) {
    return Json.fields()
        .put("spotId", spot.id())
        .put("name", spot.name())
        .put("area", spot.area())
        .put("lat", Json.coordinate(spot.position().latitudeDeg()))
        .put("lon", Json.coordinate(spot.position().longitudeDeg()))
        .put("zone", spot.zone() == null ? null : spot.zone().getId())
        .put("open", spot.open())
        .put("facings", spot.facings().stream().map(SpotOutput::facing).toList());
  }

  private static Map<String, @Nullable Object> facing(Facing facing) {
    return Json.fields()
        .put("facingDeg", Json.angle(facing.bearing().trueDeg()))
        .put("spreadDeg", Json.angle(facing.spreadDeg()))
        .put("origin", facing.origin().name().toLowerCase(Locale.ROOT))
        .put("shots", facing.shots())
        .map();
  }

  private static Map<String, @Nullable Object> observation(Observation observation) {
    Bearing facing = observation.facing();
    return Json.fields()
        .put("shotId", observation.shotId())
        .put("at", Json.time(observation.at()))
        .put("sunAzimuthDeg", Json.angle(observation.sun().azimuth().trueDeg()))
        .put("sunAltitudeDeg", Json.angle(observation.sun().apparentAltitudeDeg()))
        .put("facingDeg", facing == null ? null : Json.angle(facing.trueDeg()))
        .put("ev100", Json.rounded(observation.ev100(), 2))
        .map();
  }

  static String text(List<Spot> spots) {
    StringBuilder text = new StringBuilder();
    for (Spot spot : spots) {
      text.append(line(spot));
    }
    text.append(String.format(Locale.ROOT, "%d spots%n", spots.size()));
    return text.toString();
  }

  private static String line(Spot spot) {
    return String.format(
        Locale.ROOT,
        "%4d  %-32s %s  %s%n",
        spot.id(),
        spot.name(),
        spot.position().toText(),
        facings(spot));
  }

  private static String facings(Spot spot) {
    if (spot.open()) {
      return "open: any direction";
    }
    if (spot.facings().isEmpty()) {
      return "no facing known";
    }
    return String.join(
        ", ",
        spot.facings().stream()
            .map(
                facing ->
                    String.format(
                        Locale.ROOT,
                        "%s %.0f° ±%.0f°",
                        facing.bearing().compassPoint(),
                        facing.bearing().trueDeg(),
                        facing.spreadDeg()))
            .toList());
  }

  static Map<String, @Nullable Object> json(DroppedSpot dropped) {
    return fields(dropped.spot()).put("shots", dropped.shots()).map();
  }

  static String text(DroppedSpot dropped) {
    return line(dropped.spot());
  }

  static String text(LightProfile profile, Standing standing, SpotSkyline around) {
    StringBuilder text = new StringBuilder(line(profile.spot()));
    for (String hint : standing.hints()) {
      text.append(String.format(Locale.ROOT, "  %s%n", hint));
    }
    text.append(around.text());
    for (Observation observation : profile.observations()) {
      Bearing facing = observation.facing();
      text.append(
          String.format(
              Locale.ROOT,
              "  shot %d, %s: sun %.0f° at %.1f°%s%s%n",
              observation.shotId(),
              MOMENT.format(observation.at()),
              observation.sun().azimuth().trueDeg(),
              observation.sun().apparentAltitudeDeg(),
              facing == null
                  ? ""
                  : String.format(
                      Locale.ROOT, ", looking %s (%.0f°)", facing.compassPoint(), facing.trueDeg()),
              observation.ev100() == null
                  ? ""
                  : String.format(Locale.ROOT, ", EV100 %.1f", observation.ev100())));
    }
    return text.toString();
  }
}

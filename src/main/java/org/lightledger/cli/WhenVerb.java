package org.lightledger.cli;

import java.time.Duration;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.QuestionText;
import org.lightledger.ask.SpotWindows;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredSkyline;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "when", description = "Tells when a spot has a light: every window of some days.")
final class WhenVerb extends Verb {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  @Option(names = "--spot", required = true, paramLabel = "ID", description = "The spot's number.")
  private long spotId;

  @Option(
      names = "--light",
      required = true,
      paramLabel = "CLASS[,CLASS]",
      description = "Which light, as in \"ask\".")
  private String light;

  @Option(
      names = "--on",
      required = true,
      paramLabel = "DATE[..DATE]",
      description = "Which days at the place.")
  private String on;

  @Option(
      names = "--facing",
      paramLabel = "DEG",
      description = "Where the camera looks; all facings of the spot if not given.")
  private @Nullable Double facingDeg;

  WhenVerb(Services services) {
    super(services);
  }

  private record Found(Bearing facing, Answer.Window window) {}

  @Override
  public Integer call() {
    Set<LightClass> lights = named("--light", () -> QuestionText.parseLights(light));
    QuestionText.Days days = named("--on", () -> QuestionText.parseDays(on));
    try (Ledger ledger = open()) {
      makeSkylines(ledger);
      Spot spot = spot(ledger, spotId);
      ZoneId zone = zoneOf(spot);
      Skyline skyline =
          ledger
              .read(session -> session.skylines().find(spotId))
              .map(StoredSkyline::skyline)
              .orElse(null);
      List<Found> found = new ArrayList<>();
      for (Bearing facing : facings(spot)) {
        SpotWindows.of(
                services.sun(),
                spot.position(),
                zone,
                facing,
                skyline,
                lights,
                days.first(),
                days.last())
            .forEach(window -> found.add(new Found(facing, window)));
      }
      print(() -> found.stream().map(WhenVerb::json).toList(), () -> text(found));
    }
    return 0;
  }

  private List<Bearing> facings(Spot spot) {
    Double asked = facingDeg;
    if (asked != null) {
      return List.of(new Bearing(asked));
    }
    if (spot.facings().isEmpty()) {
      throw new IllegalArgumentException(
          "no facing of spot " + spotId + " is known; name one with --facing");
    }
    return spot.facings().stream().map(facing -> facing.bearing()).toList();
  }

  private static Map<String, @Nullable Object> json(Found found) {
    return Json.fields()
        .put("facingDeg", Json.angle(found.facing().trueDeg()))
        .put("from", Json.time(found.window().from()))
        .put("to", Json.time(found.window().to()))
        .map();
  }

  private static String text(List<Found> found) {
    StringBuilder text = new StringBuilder();
    for (Found one : found) {
      Answer.Window window = one.window();
      text.append(
          String.format(
              Locale.ROOT,
              "%s  %s to %s  (%d min)  looking %s (%.0f°)%n",
              window.from().toLocalDate(),
              HOUR.format(window.from()),
              HOUR.format(window.to()),
              Duration.between(window.from(), window.to()).toMinutes(),
              one.facing().compassPoint(),
              one.facing().trueDeg()));
    }
    return text.append(String.format(Locale.ROOT, "%d windows%n", found.size())).toString();
  }
}

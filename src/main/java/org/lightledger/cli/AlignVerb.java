package org.lightledger.cli;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Alignment;
import org.lightledger.ask.QuestionText;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
    name = "align",
    description = {
      "Finds the days on which the sun rises or sets in line with a street or a view.",
      "Never look at the sun through an optical viewfinder or a long lens."
    })
final class AlignVerb extends Verb {
  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  @Option(names = "--spot", required = true, paramLabel = "ID", description = "The spot's number.")
  private long spotId;

  @Option(
      names = "--bearing",
      required = true,
      paramLabel = "DEG",
      description = "The line, true, clockwise from north.")
  private double bearingDeg;

  @Option(
      names = "--on",
      required = true,
      paramLabel = "DATE..DATE",
      description = "Which days at the place.")
  private String on;

  AlignVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    Bearing bearing = named("--bearing", () -> new Bearing(bearingDeg));
    QuestionText.Days days = named("--on", () -> QuestionText.parseDays(on));
    try (Ledger ledger = open()) {
      Spot spot = spot(ledger, spotId);
      ZoneId zone = zoneOf(spot);
      List<Alignment.Day> found =
          new Alignment(services.sun())
              .days(spot.position(), zone, bearing, days.first(), days.last());
      print(() -> found.stream().map(AlignVerb::json).toList(), () -> text(found));
    }
    return 0;
  }

  private static Map<String, @Nullable Object> json(Alignment.Day day) {
    return Json.fields()
        .put("event", day.kind().label())
        .put("at", Json.time(day.at()))
        .put("azimuthDeg", Json.angle(day.azimuthDeg()))
        .put("besideDeg", Json.angle(day.besideDeg()))
        .map();
  }

  private static String text(List<Alignment.Day> found) {
    StringBuilder text = new StringBuilder();
    for (Alignment.Day day : found) {
      text.append(
          String.format(
              Locale.ROOT,
              "%s  %s at %.1f°, %.1f° %s of the line%n",
              MOMENT.format(day.at()),
              day.kind().label(),
              day.azimuthDeg(),
              Math.abs(day.besideDeg()),
              day.besideDeg() < 0 ? "left" : "right"));
    }
    return text.append(String.format(Locale.ROOT, "%d days%n", found.size())).toString();
  }
}

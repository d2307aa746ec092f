package org.lightledger.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

/** A spot in words, for programs that show a description and know nothing of facings. */
final class SpotWords {
  private SpotWords() {}

  /** Area, facings, traits, cautions and notes, as far as there are any, a line each. */
  static String of(ExchangedSpot spot) {
    List<String> lines = new ArrayList<>();
    if (spot.area() != null) {
      lines.add("Area: " + spot.area());
    }
    if (spot.open()) {
      lines.add("Open: any direction works");
    }
    if (!spot.facings().isEmpty()) {
      lines.add(
          "Facings: "
              + spot.facings().stream()
                  .map(
                      facing ->
                          String.format(
                              Locale.ROOT,
                              "%s %.0f° ±%.0f°",
                              facing.bearing().compassPoint(),
                              facing.bearing().trueDeg(),
                              facing.spreadDeg()))
                  .collect(Collectors.joining(", ")));
    }
    if (!spot.traits().isEmpty()) {
      lines.add(
          "What it is and has: "
              + spot.traits().stream().map(Trait::label).collect(Collectors.joining(", ")));
    }
    if (!spot.hazards().isEmpty()) {
      lines.add(
          "Mind: " + spot.hazards().stream().map(Hazard::label).collect(Collectors.joining(", ")));
    }
    if (!spot.cautions().isEmpty()) {
      lines.add("Cautions: " + spot.cautions());
    }
    if (!spot.notes().isEmpty()) {
      lines.add("Notes: " + spot.notes());
    }
    return String.join("\n", lines);
  }
}

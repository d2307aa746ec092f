package org.lightledger.cli;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunDirection;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(name = "sun", description = "Says where the sun stands, or what it does on a day.")
final class SunVerb extends Verb {
  @Option(names = "--lat", required = true, paramLabel = "DEG", description = "Degrees north.")
  private double latitudeDeg;

  @Option(names = "--lon", required = true, paramLabel = "DEG", description = "Degrees east.")
  private double longitudeDeg;

  @ArgGroup(multiplicity = "1")
  private When when;

  @Option(
      names = "--zone",
      paramLabel = "ZONE",
      description = "With --day: the zone whose day is meant; found from the place if not given.")
  private @Nullable ZoneId zone;

  private static final class When {
    @Option(
        names = "--at",
        paramLabel = "INSTANT",
        description = "An instant with its offset, such as 2026-12-12T17:00:00+01:00.")
    @Nullable String at;

    @Option(names = "--day", paramLabel = "DATE", description = "A local date: the sun's events.")
    @Nullable LocalDate day;
  }

  SunVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    GeoPoint place = new GeoPoint(latitudeDeg, longitudeDeg);
    if (when.day != null) {
      SunDay day = SunDay.of(services.sun(), place, zone == null ? zoneOf(place) : zone, when.day);
      print(() -> SunOutput.json(day), () -> SunOutput.text(day));
    } else {
      SunDirection sun = services.sun().direction(instant(String.valueOf(when.at)), place);
      print(() -> SunOutput.json(sun), () -> SunOutput.text(sun));
    }
    return 0;
  }

  private static Instant instant(String text) {
    try {
      return OffsetDateTime.parse(text).toInstant();
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "--at: expected an instant with its offset such as 2026-12-12T17:00:00+01:00 or"
              + " 2026-12-12T16:00:00Z, found \""
              + text
              + "\"",
          e);
    }
  }

  private ZoneId zoneOf(GeoPoint place) {
    List<ZoneId> candidates = services.zones().zonesAt(place, 0).zones();
    if (candidates.size() == 1) {
      return candidates.get(0);
    }
    throw new IllegalArgumentException(
        candidates.isEmpty()
            ? "no zone is known for this place; name one with --zone"
            : "several zones are possible here ("
                + candidates.stream().map(ZoneId::getId).collect(Collectors.joining(", "))
                + "); name one with --zone");
  }
}

package org.lightledger.cli;

import java.time.DateTimeException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.QuestionText;
import org.lightledger.ask.Rehearsal;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredSkyline;
import org.lightledger.studio.RegionRoads;
import org.lightledger.studio.Scouting;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
    name = "rehearse",
    description = {
      "Finds earlier days and hours whose sun is most like that of a planned moment:",
      "when to scout. Several pairs of --spot and --for are rehearsed in one outing each day."
    })
final class RehearseVerb extends Verb {
  private static final DateTimeFormatter MOMENT =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  @Option(names = "--spot", required = true, paramLabel = "ID", description = "The spot's number.")
  private List<Long> spotIds = List.of();

  @Option(
      names = "--for",
      required = true,
      paramLabel = "LOCALTIME",
      description = "The planned moment at the spot, such as 2026-12-12T17:00.")
  private List<String> planned = List.of();

  @Option(
      names = "--stay",
      paramLabel = "MIN",
      description = "Minutes at each of several spots; 15 if not given.")
  private @Nullable Integer stayMinutes;

  @Option(
      names = "--from",
      paramLabel = "DATE",
      description = "The first day to scout; today if not given.")
  private @Nullable LocalDate first;

  @Option(
      names = "--to",
      paramLabel = "DATE",
      description = "The last day to scout; the day before the planned one if not given.")
  private @Nullable LocalDate last;

  @Option(names = "--hours", paramLabel = "HH:MM..HH:MM", description = "Only within these hours.")
  private @Nullable String hours;

  @Option(
      names = "--weekdays",
      split = ",",
      paramLabel = "DAY[,DAY]",
      description = "Only on these days of the week, such as saturday,sunday.")
  private @Nullable List<String> weekdays;

  @Option(
      names = "--limit",
      paramLabel = "N",
      defaultValue = "10",
      description = "At most so many moments; ${DEFAULT-VALUE} if not given.")
  private int limit;

  RehearseVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    if (spotIds.size() != planned.size()) {
      throw new IllegalArgumentException(
          "expected a --for with each --spot, found "
              + spotIds.size()
              + " of --spot and "
              + planned.size()
              + " of --for");
    }
    if (spotIds.size() > 1) {
      return outings();
    }
    if (stayMinutes != null) {
      throw new IllegalArgumentException(
          "--stay: expected several pairs of --spot and --for, found one; leave --stay out");
    }
    try (Ledger ledger = open()) {
      makeSkylines(ledger);
      Scouting.Stop stop = stop(ledger, spotIds.get(0), planned.get(0));
      List<Rehearsal.Moment> moments =
          new Rehearsal(services.sun())
                  .moments(
                      new Rehearsal.Plan(
                          stop.spot().position(), stop.zone(), stop.skyline(), stop.at()),
                      free(stop.at(), stop.zone()),
                      services.clock().instant())
                  .stream()
                  .limit(limit)
                  .toList();
      print(() -> moments.stream().map(RehearseVerb::json).toList(), () -> text(moments));
    }
    return 0;
  }

  private Integer outings() {
    try (Ledger ledger = open();
        RegionRoads roads = new RegionRoads(ledger)) {
      makeSkylines(ledger);
      List<Scouting.Stop> stops = new ArrayList<>();
      for (int i = 0; i < spotIds.size(); i++) {
        stops.add(stop(ledger, spotIds.get(i), planned.get(i)));
      }
      Scouting scouting = ledger.read(session -> new Scouting(stops, roads.drives(session)));
      Scouting.Stop earliest = scouting.stops().get(0);
      List<ScoutingRun.Run> runs =
          scouting
              .runs(
                  services.sun(),
                  free(earliest.at(), earliest.zone()),
                  first == null ? services.clock().instant() : Instant.MIN,
                  stayMinutes == null ? ScoutingRun.USUAL_STAY_MINUTES : stayMinutes)
              .stream()
              .limit(limit)
              .toList();
      OutingOutput output = new OutingOutput(scouting);
      print(() -> runs.stream().map(output::json).toList(), () -> output.text(runs));
    }
    return 0;
  }

  private static Scouting.Stop stop(Ledger ledger, long spotId, String local) {
    Spot spot = spot(ledger, spotId);
    ZoneId zone = zoneOf(spot);
    Skyline skyline =
        ledger
            .read(session -> session.skylines().find(spotId))
            .map(StoredSkyline::skyline)
            .orElse(null);
    return new Scouting.Stop(spot, zone, skyline, plannedAt(local, zone));
  }

  private static Instant plannedAt(String planned, ZoneId zone) {
    LocalDateTime local;
    try {
      local = LocalDateTime.parse(planned);
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(
          "--for: expected a local time such as 2026-12-12T17:00, found \"" + planned + "\"", e);
    }
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(local);
    if (offsets.isEmpty()) {
      throw new IllegalArgumentException(
          "--for: expected a time that exists, found "
              + planned
              + ", which a clock change leaves out in "
              + zone.getId());
    }
    return local.toInstant(offsets.get(0));
  }

  private Rehearsal.Free free(Instant at, ZoneId zone) {
    LocalDate from = first == null ? services.clock().instant().atZone(zone).toLocalDate() : first;
    LocalDate to = last == null ? at.atZone(zone).toLocalDate() : last;
    Rehearsal.Free always = Rehearsal.Free.always(from, to);
    Set<DayOfWeek> days = named("--weekdays", () -> TermsOptions.weekdays(weekdays));
    return new Rehearsal.Free(
        from,
        to,
        days,
        clock().map(TimeOfDay.Clock::from).orElse(always.from()),
        clock().map(TimeOfDay.Clock::to).orElse(always.to()));
  }

  private Optional<TimeOfDay.Clock> clock() {
    String text = hours;
    if (text == null) {
      return Optional.empty();
    }
    if (QuestionText.parseTime(text) instanceof TimeOfDay.Clock clock
        && clock.from().isBefore(clock.to())) {
      return Optional.of(clock);
    }
    throw new IllegalArgumentException(
        "--hours: expected a range such as 16:00..19:00, found \"" + text + "\"");
  }

  private static Map<String, @Nullable Object> json(Rehearsal.Moment moment) {
    return Json.fields()
        .put("at", Json.time(moment.at()))
        .put("sunGapDeg", Json.angle(moment.sunGapDeg()))
        .put("azimuthDifferenceDeg", Json.angle(moment.azimuthDifferenceDeg()))
        .put("altitudeDifferenceDeg", Json.angle(moment.altitudeDifferenceDeg()))
        .put("directSun", moment.directSun())
        .put("difference", Rehearsal.difference(moment))
        .map();
  }

  private static String text(List<Rehearsal.Moment> moments) {
    if (moments.isEmpty()) {
      return String.format(Locale.ROOT, "No earlier moment in that stretch has such a sun.%n");
    }
    StringBuilder text = new StringBuilder();
    for (Rehearsal.Moment moment : moments) {
      text.append(
          String.format(
              Locale.ROOT,
              "%s  sun gap %.1f°  %s%n",
              MOMENT.format(moment.at()),
              moment.sunGapDeg(),
              Rehearsal.difference(moment)));
    }
    return text.toString();
  }
}

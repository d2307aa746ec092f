package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Rehearsal;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.studio.RegionRoads;
import org.lightledger.studio.Scouting;
import org.lightledger.sun.SunEphemeris;

/** When and in which order several planned moments are rehearsed in one outing. */
final class ScoutingRunRoutes {
  static final String PATH = "/scouting-run";

  /** So many outings are shown: own choice. */
  private static final int MOST_OUTINGS = 5;

  private static final LocalTime LAST_MINUTE = LocalTime.of(23, 59);

  private final House house;
  private final RegionRoads roads;
  private final SunEphemeris sun;

  ScoutingRunRoutes(House house, RegionRoads roads, SunEphemeris sun) {
    this.house = house;
    this.roads = roads;
    this.sun = sun;
  }

  void register(RoutesConfig routes) {
    routes.get(PATH, this::show);
  }

  /** The planned moments, and all about them that the ledger knows; null when there are none. */
  private record Asked(ScoutingStops stops, @Nullable Scouting scouting) {}

  /** When the owner is free, as far as it was understood. */
  private record Times(
      LocalDate first,
      LocalDate last,
      LocalTime after,
      LocalTime before,
      Set<DayOfWeek> weekdays,
      int stay) {}

  private void show(Context ctx) {
    Fields fields = new Fields(ctx::queryParams);
    Instant now = house.clock().instant();
    Asked asked =
        house
            .ledger()
            .read(
                session -> {
                  ScoutingStops stops = ScoutingStops.read(fields, session, now);
                  boolean some =
                      !stops.good().isEmpty() && stops.good().size() <= ScoutingRun.MOST_SPOTS;
                  return new Asked(
                      stops, some ? new Scouting(stops.good(), roads.drives(session)) : null);
                });
    if (!ctx.queryParamMap().isEmpty() && fields.all("stop").isEmpty()) {
      fields.problem(
          "stop",
          "Planned moments",
          "expected 1 to " + ScoutingRun.MOST_SPOTS + " of them, found none");
    }
    Times times = times(fields, asked.scouting(), now);
    ScoutingRunPage page = page(fields, asked, times, now);
    if (!page.problems().isEmpty()) {
      ctx.status(422);
    }
    house.show(ctx, "scoutingrun", "Rehearse in one outing", Frame.Room.NONE, page);
  }

  private static Times times(Fields fields, @Nullable Scouting scouting, Instant now) {
    Scouting.Stop earliest = scouting == null ? null : scouting.stops().get(0);
    ZoneId zone = earliest == null ? ZoneOffset.UTC : earliest.zone();
    LocalDate today = now.atZone(zone).toLocalDate();
    LocalDate planned = earliest == null ? today : earliest.at().atZone(zone).toLocalDate();
    LocalDate begins = fields.day("first", "First day");
    LocalDate ends = fields.day("last", "Last day");
    LocalTime from = fields.clock("after", "Free from");
    LocalTime until = fields.clock("before", "Free until");
    Integer stay =
        fields.whole(
            "stay",
            "Minutes at each spot",
            ScoutingRun.SHORTEST_STAY_MINUTES,
            ScoutingRun.LONGEST_STAY_MINUTES,
            " minutes");
    Times times =
        new Times(
            begins == null ? today : begins,
            ends == null ? planned : ends,
            from == null ? LocalTime.MIN : from,
            until == null ? LAST_MINUTE : until,
            AskTerms.weekdays(fields, "weekday", "Free days"),
            stay == null ? ScoutingRun.USUAL_STAY_MINUTES : stay);
    if (earliest != null) {
      checkDays(fields, times, today);
    }
    if (times.before().isBefore(times.after())) {
      fields.problem(
          "before",
          "Free until",
          "expected a time after "
              + Words.hour(times.after())
              + ", found "
              + Words.hour(times.before()));
    }
    return times;
  }

  private static void checkDays(Fields fields, Times times, LocalDate today) {
    LocalDate farthest = today.plusDays(Question.MOST_DAYS);
    if (times.first().isBefore(today) || times.first().isAfter(farthest)) {
      fields.problem(
          "first",
          "First day",
          "expected a day from today to "
              + Words.shortDay(farthest)
              + ", found "
              + Words.shortDay(times.first()));
    } else if (times.last().isBefore(times.first()) || times.last().isAfter(farthest)) {
      fields.problem(
          "last",
          "Last day",
          "expected a day from "
              + Words.shortDay(times.first())
              + " to "
              + Words.shortDay(farthest)
              + ", found "
              + Words.shortDay(times.last()));
    }
  }

  private ScoutingRunPage page(Fields fields, Asked asked, Times times, Instant now) {
    Scouting scouting = asked.scouting();
    ScoutingRunViews views = scouting == null ? null : new ScoutingRunViews(scouting);
    List<ScoutingRunPage.Outing> outings = List.of();
    String said = "";
    if (scouting != null && views != null && fields.problems().isEmpty()) {
      List<ScoutingRun.Run> runs =
          scouting.runs(
              sun,
              new Rehearsal.Free(
                  times.first(), times.last(), times.weekdays(), times.after(), times.before()),
              now,
              times.stay());
      outings = runs.stream().limit(MOST_OUTINGS).map(views::outing).toList();
      said = said(runs.size());
    }
    ScoutingStops stops = asked.stops();
    return new ScoutingRunPage(
        new ScoutingRunPage.Form(
            stops.choices(),
            stops.bad(),
            stops.good().size() + stops.bad().size() >= ScoutingRun.MOST_SPOTS,
            shown(fields, "first", scouting == null ? "" : times.first().toString()),
            shown(fields, "last", scouting == null ? "" : times.last().toString()),
            fields.raw("after"),
            fields.raw("before"),
            AskTerms.weekdayChoices(times.weekdays()),
            shown(fields, "stay", String.valueOf(times.stay())),
            views == null ? "" : views.clock()),
        outings,
        said,
        fields.problems());
  }

  private static String shown(Fields fields, String field, String usual) {
    String typed = fields.raw(field);
    return typed.isEmpty() ? usual : typed;
  }

  private static String said(int days) {
    if (days == 0) {
      return "No day of these has a moment in the same light in your free hours. Take more days or"
          + " longer hours; for a moment planned after civil twilight there is no sun to"
          + " rehearse.";
    }
    return days > MOST_OUTINGS
        ? "The best " + MOST_OUTINGS + " of " + days + " days."
        : Words.count(days, "day.", "days, the best first.");
  }
}

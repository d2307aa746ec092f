package org.lightledger.web;

import io.javalin.http.Context;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Alignment;
import org.lightledger.ask.Coverage;
import org.lightledger.ask.Question;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.sun.SunEphemeris;

/** Puts together what can be planned at a spot. */
final class SpotPlans {
  private static final double MOST_DEG = 360;

  private final House house;
  private final SunEphemeris sun;

  SpotPlans(House house, SunEphemeris sun) {
    this.house = house;
    this.sun = sun;
  }

  /** A spot with what the searches need to know of it. */
  record Place(Spot spot, ZoneId zone, @Nullable Skyline skyline, Instant now) {
    LocalDate today() {
      return LocalDate.ofInstant(now, zone);
    }
  }

  PlansView view(Context ctx, LedgerSession session, Spot spot) {
    Fields fields = new Fields(ctx::queryParams);
    ZoneId zone = SpotSky.zone(spot);
    Skyline skyline = SpotSky.known(session.skylines().find(spot.id()).orElse(null));
    Place place = new Place(spot, zone, skyline, house.clock().instant());
    List<Observation> observations =
        session.spots().profile(spot.id()).map(profile -> profile.observations()).orElse(List.of());
    PlansView.When when = new WhenPlan(sun).view(fields, place);
    PlansView.Rehearse rehearse = new RehearsePlan(sun).view(fields, place);
    PlansView.InLine inLine = inLine(fields, place);
    return new PlansView(
        spot.id(),
        when,
        rehearse,
        inLine,
        scouted(Coverage.of(sun, spot.position(), observations)),
        fields.problems());
  }

  /** The days between two fields, or null when they are bad. */
  static @Nullable Days days(
      Fields fields, String from, String to, LocalDate first, LocalDate last) {
    int before = fields.problems().size();
    LocalDate start = fields.day(from, "First day");
    LocalDate end = fields.day(to, "Last day");
    LocalDate begins = start == null ? first : start;
    LocalDate ends = end == null ? (start == null ? last : start.plusDays(30)) : end;
    if (ends.isBefore(begins)) {
      fields.problem(
          to,
          "Last day",
          "expected a day on or after "
              + Words.shortDay(begins)
              + ", found "
              + Words.shortDay(ends));
    } else if (begins.plusDays(Question.MOST_DAYS - 1L).isBefore(ends)) {
      fields.problem(
          to, "Last day", "expected at most " + Question.MOST_DAYS + " days in all, found more");
    }
    for (LocalDate day : List.of(begins, ends)) {
      if (day.getYear() < 1900 || day.getYear() > 2200) {
        fields.problem(
            from, "First day", "expected a year from 1900 to 2200, found " + day.getYear());
      }
    }
    return fields.problems().size() == before ? new Days(begins, ends) : null;
  }

  /** A stretch of days. */
  record Days(LocalDate first, LocalDate last) {}

  static @Nullable Bearing bearing(Fields fields, String field, String label) {
    Double angleDeg = fields.number(field, label, 0, MOST_DEG, "°");
    return angleDeg == null ? null : Bearing.of(angleDeg);
  }

  private PlansView.InLine inLine(Fields fields, Place place) {
    boolean used = !fields.raw("line").isEmpty() || !fields.raw("line-from").isEmpty();
    LocalDate yearOn = place.today().plusDays(Question.MOST_DAYS - 1L);
    List<PlansView.Aligned> rows = new ArrayList<>();
    String said = "";
    if (used) {
      if (fields.raw("line").isEmpty()) {
        fields.problem("line", "Line", "expected degrees from north such as 245, found nothing");
      }
      Bearing line = bearing(fields, "line", "Line");
      Days days = days(fields, "line-from", "line-to", place.today(), yearOn);
      if (line != null && days != null) {
        for (Alignment.Day day :
            new Alignment(sun)
                .days(place.spot().position(), place.zone(), line, days.first(), days.last())) {
          rows.add(aligned(day));
        }
        said =
            rows.isEmpty()
                ? "On no day from "
                    + Words.days(days.first(), days.last())
                    + " does the sun rise or set within half a degree of "
                    + Words.bearing(line)
                    + "."
                : Words.count(rows.size(), "time", "times") + " along " + Words.bearing(line) + ".";
      }
    }
    return new PlansView.InLine(
        used,
        fields.raw("line"),
        used && !fields.raw("line-from").isEmpty()
            ? fields.raw("line-from")
            : place.today().toString(),
        used && !fields.raw("line-to").isEmpty() ? fields.raw("line-to") : yearOn.toString(),
        rows,
        said);
  }

  private static PlansView.Aligned aligned(Alignment.Day day) {
    String beside = Words.fineDegrees(Math.abs(day.besideDeg()));
    return new PlansView.Aligned(
        Words.moment(day.at()),
        Words.capital(day.kind().label()),
        beside.equals("0.0°")
            ? "in line"
            : beside + (day.besideDeg() < 0 ? " left" : " right") + " of the line");
  }

  private static PlansView.Scouted scouted(Coverage coverage) {
    List<PlansView.Row> rows = new ArrayList<>();
    for (Coverage.Time time : Coverage.Time.values()) {
      List<PlansView.Cell> cells = new ArrayList<>();
      for (Coverage.Season season : Coverage.Season.values()) {
        int count = coverage.count(season, time);
        cells.add(
            count > 0
                ? new PlansView.Cell("seen", Words.count(count, "shot", "shots"))
                : coverage.has(season, time)
                    ? new PlansView.Cell("never", "never")
                    : new PlansView.Cell("none", "not here"));
      }
      rows.add(new PlansView.Row(Words.capital(time.label()), cells));
    }
    return new PlansView.Scouted(
        coverage.seen() + " of " + coverage.inAll() + " seasons and times seen",
        coverage.gaps().stream().map(gap -> Words.capital(gap) + ".").toList(),
        Arrays.stream(Coverage.Season.values()).map(s -> Words.capital(s.label())).toList(),
        rows);
  }
}

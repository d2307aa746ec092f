package org.lightledger.web;

import io.javalin.http.Context;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;

/**
 * The day, hour, facing and year for which a spot's sky is looked at.
 *
 * @param day the day
 * @param at the moment on that day, or null for none
 * @param facing the facing of the year
 * @param facingChosen whether somebody chose it
 * @param year the year
 * @param yearChosen whether somebody chose it
 * @param problems what was wrong; what was bad is left as if it had not been given
 */
record SkyChoice(
    LocalDate day,
    @Nullable OffsetDateTime at,
    Bearing facing,
    boolean facingChosen,
    int year,
    boolean yearChosen,
    List<FieldProblem> problems) {
  private static final int FIRST_YEAR = 1900;
  private static final int LAST_YEAR = 2200;

  /** Reads the address. */
  static SkyChoice read(Context ctx, Spot spot, ZoneId zone, LocalDate today) {
    Fields fields = new Fields(ctx::queryParams);
    LocalDate day = fields.day("day", "Day");
    if (day != null && (day.getYear() < FIRST_YEAR || day.getYear() > LAST_YEAR)) {
      fields.problem(
          "day",
          "Day",
          "expected a year from " + FIRST_YEAR + " to " + LAST_YEAR + ", found " + day.getYear());
      day = null;
    }
    LocalDate date = day == null ? today : day;
    OffsetDateTime at = moment(fields, date, zone);
    Double facing = fields.number("facing", "Facing", 0, 360, "°");
    Double year = fields.number("year", "Year", FIRST_YEAR, LAST_YEAR, "");
    List<Facing> facings = spot.facings();
    Bearing usual = facings.isEmpty() ? Bearing.of(0) : facings.get(0).bearing();
    return new SkyChoice(
        date,
        at,
        facing == null ? usual : Bearing.of(facing),
        facing != null,
        year == null ? date.getYear() : (int) Math.round(year),
        year != null,
        fields.problems());
  }

  private static @Nullable OffsetDateTime moment(Fields fields, LocalDate day, ZoneId zone) {
    LocalTime at = fields.clock("at", "Hour");
    if (at == null) {
      return null;
    }
    LocalDateTime local = day.atTime(at);
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(local);
    if (offsets.isEmpty()) {
      fields.problem(
          "at",
          "Hour",
          "expected a time that the clocks of "
              + zone.getId()
              + " show on that day, found "
              + Words.hour(at)
              + ", which is left out");
      return null;
    }
    return local.atOffset(offsets.get(0));
  }

  SkyView.Chosen fields() {
    return new SkyView.Chosen(
        day.toString(),
        at == null ? "" : Words.hour(at),
        facingChosen ? plain(facing) : "",
        yearChosen ? String.valueOf(year) : "");
  }

  /** The address of the part that shows this. */
  String href(long spotId) {
    List<String> parts = new ArrayList<>();
    parts.add("day=" + day);
    if (at != null) {
      parts.add("at=" + Words.hour(at));
    }
    if (facingChosen) {
      parts.add("facing=" + plain(facing));
    }
    if (yearChosen) {
      parts.add("year=" + year);
    }
    return "/spots/" + spotId + "?" + String.join("&", parts);
  }

  /** A bearing as the form writes it: whole degrees below 360. */
  static String plain(Bearing bearing) {
    return String.valueOf(Math.round(bearing.trueDeg()) % 360);
  }
}

package org.lightledger.web;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Anchor;
import org.lightledger.session.Bookable;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;

/**
 * When a session is and what is booked, as the form holds it.
 *
 * @param client the number of the client, "" for none
 * @param date the day
 * @param bookable the number of the package, "" for the terms as they were booked
 * @param anchor "sunset", "ends" or "starts"
 * @param minutes minutes after sunset, negative before it
 * @param time a time of the clock
 */
public record SessionForm(
    String client, String date, String bookable, String anchor, String minutes, String time) {
  private static final int LEAST_MINUTES = -300;
  private static final int MOST_MINUTES = 90;
  private static final int FIRST_YEAR = 1900;
  private static final int LAST_YEAR = 2200;

  /** What a form says once every field is right. */
  record Booking(long client, LocalDate date, Anchor anchor, Terms terms) {}

  static SessionForm fresh(Fields fields, List<Bookable> packages) {
    String first = packages.isEmpty() ? "" : String.valueOf(packages.get(0).id());
    return new SessionForm(
        fields.raw("client"),
        fields.raw("date"),
        or(fields.raw("package"), first),
        or(fields.raw("anchor"), "sunset"),
        or(fields.raw("minutes"), "0"),
        fields.raw("time"));
  }

  static SessionForm of(Session session) {
    Anchor anchor = session.anchor();
    String minutes =
        anchor instanceof Anchor.EndsAtSunset sunset ? String.valueOf(sunset.minutesAfter()) : "0";
    String time = "";
    String kind = "sunset";
    if (anchor instanceof Anchor.EndsAt ends) {
      kind = "ends";
      time = Words.hour(ends.time());
    } else if (anchor instanceof Anchor.StartsAt starts) {
      kind = "starts";
      time = Words.hour(starts.time());
    }
    return new SessionForm(
        String.valueOf(session.clientId()), session.date().toString(), "", kind, minutes, time);
  }

  static SessionForm read(Fields fields) {
    return new SessionForm(
        fields.raw("client"),
        fields.raw("date"),
        fields.raw("package"),
        fields.raw("anchor"),
        fields.raw("minutes"),
        fields.raw("time"));
  }

  private static String or(String text, String otherwise) {
    return text.isEmpty() ? otherwise : text;
  }

  /** Reads a booking; what is wrong is noted in the fields, and then the result means nothing. */
  static @Nullable Booking booking(Fields fields, List<Bookable> packages, @Nullable Terms booked) {
    long client = client(fields);
    LocalDate date = date(fields);
    Anchor anchor = anchor(fields);
    Terms terms = terms(fields, packages, booked);
    return date == null || anchor == null || terms == null || !fields.problems().isEmpty()
        ? null
        : new Booking(client, date, anchor, terms);
  }

  private static long client(Fields fields) {
    try {
      return Long.parseLong(fields.raw("client"));
    } catch (NumberFormatException e) {
      fields.problem("client", "Client", "expected a client, found none; choose one");
      return 0;
    }
  }

  private static @Nullable LocalDate date(Fields fields) {
    if (fields.raw("date").isEmpty()) {
      fields.problem("date", "Day", "expected a day such as 2026-12-15, found nothing");
    }
    LocalDate date = fields.day("date", "Day");
    if (date != null && (date.getYear() < FIRST_YEAR || date.getYear() > LAST_YEAR)) {
      fields.problem("date", "Day", "expected a year from 1900 to 2200, found " + date.getYear());
    }
    return date;
  }

  private static @Nullable Anchor anchor(Fields fields) {
    String kind = fields.raw("anchor");
    if (kind.equals("sunset") || kind.isEmpty()) {
      Integer minutes =
          fields.whole("minutes", "Minutes after sunset", LEAST_MINUTES, MOST_MINUTES, " minutes");
      return new Anchor.EndsAtSunset(minutes == null ? 0 : minutes);
    }
    if (fields.raw("time").isEmpty()) {
      fields.problem("time", "Time", "expected a time such as 17:30, found nothing");
    }
    LocalTime time = fields.clock("time", "Time");
    if (time == null) {
      return null;
    }
    return kind.equals("starts") ? new Anchor.StartsAt(time) : new Anchor.EndsAt(time);
  }

  private static @Nullable Terms terms(
      Fields fields, List<Bookable> packages, @Nullable Terms booked) {
    String number = fields.raw("package");
    if (number.isEmpty() && booked != null) {
      return booked;
    }
    return packages.stream()
        .filter(bookable -> String.valueOf(bookable.id()).equals(number))
        .map(Bookable::terms)
        .findFirst()
        .orElseGet(
            () -> {
              fields.problem(
                  "package", "Package", "expected a package of the studio, found none; choose one");
              return null;
            });
  }

  /** The day, if it can be read. */
  @Nullable LocalDate day() {
    try {
      LocalDate day = LocalDate.parse(date);
      return day.getYear() < FIRST_YEAR || day.getYear() > LAST_YEAR ? null : day;
    } catch (DateTimeException e) {
      return null;
    }
  }
}

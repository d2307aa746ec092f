package org.lightledger.web.chart;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;

/** One day at a spot as a bar along the clock: direct sun, open shade, not known, night. */
public final class DayBar {
  private static final double HEIGHT = 28;
  private static final double SIDE = 12;
  private static final double LETTER_WIDTH = 6.6;

  /** What is shown around the light of the day, before sunrise and after sunset. */
  private static final Duration AROUND = Duration.ofMinutes(50);

  /** How much room there is. */
  public enum Size {
    /** A desktop column. */
    WIDE(760),
    /** A phone. */
    NARROW(360);

    final double width;

    Size(double width) {
      this.width = width;
    }
  }

  /** What the sun does. */
  public enum Kind {
    /** It reaches the spot. */
    DIRECT("direct sun"),
    /** It is up and something known hides it. */
    SHADE("open shade"),
    /** It is up, and whether it reaches the spot is not known. */
    NOT_KNOWN("not known"),
    /** It is below the horizon. */
    DOWN("");

    final String word;

    Kind(String word) {
      this.word = word;
    }

    String code() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  /**
   * A stretch of one kind.
   *
   * @param kind what the sun does
   * @param from start
   * @param to end
   */
  public record Span(Kind kind, Instant from, Instant to) {}

  private final double width;
  private final ZoneId zone;
  private final Instant from;
  private final Instant to;

  private DayBar(double width, ZoneId zone, Instant from, Instant to) {
    this.width = width;
    this.zone = zone;
    this.from = from;
    this.to = to;
  }

  /**
   * Draws a day. It stands beside its own words.
   *
   * @param spans the whole day, in order, without gaps; at least one
   * @param zone the zone of the place
   * @param size how much room there is
   * @return the drawing
   */
  public static Svg draw(List<Span> spans, ZoneId zone, Size size) {
    Instant start = spans.get(0).from();
    Instant end = spans.get(spans.size() - 1).to();
    List<Span> up = spans.stream().filter(span -> span.kind() != Kind.DOWN).toList();
    Instant from = up.isEmpty() ? start : later(start, up.get(0).from().minus(AROUND));
    Instant to = up.isEmpty() ? end : earlier(end, up.get(up.size() - 1).to().plus(AROUND));
    Drawing drawing =
        Drawing.decorative(
            "daybar daybar-" + size.name().toLowerCase(Locale.ROOT), size.width, HEIGHT + 22);
    DayBar bar = new DayBar(size.width, zone, from, to);
    spans.forEach(span -> bar.span(drawing, span));
    bar.hours(drawing);
    return drawing.finish();
  }

  private static Instant later(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  private static Instant earlier(Instant one, Instant other) {
    return one.isBefore(other) ? one : other;
  }

  private double x(Instant instant) {
    double part =
        (double) Duration.between(from, instant).toMillis() / Duration.between(from, to).toMillis();
    return SIDE + Math.max(0, Math.min(1, part)) * (width - 2 * SIDE);
  }

  private void span(Drawing drawing, Span span) {
    double left = x(span.from());
    double length = x(span.to()) - left;
    if (length <= 0) {
      return;
    }
    drawing.rect("day day-" + span.kind().code(), left, 1, length, HEIGHT - 2);
    if (span.kind() == Kind.SHADE) {
      StringBuilder lines = new StringBuilder();
      for (double x = left + 4; x < left + length - 1; x += 6) {
        lines.append(String.format(Locale.ROOT, "M%.1f 1V%.1f", x, HEIGHT - 1));
      }
      drawing.path("day-lines", lines.toString());
    }
    String word = span.kind().word;
    if (!word.isEmpty() && word.length() * LETTER_WIDTH + 8 <= length) {
      drawing.text(
          "day-word day-word-" + span.kind().code(),
          left + length / 2,
          HEIGHT / 2 + 4,
          "middle",
          word);
    }
  }

  private void hours(Drawing drawing) {
    ZonedDateTime hour = from.atZone(zone).truncatedTo(ChronoUnit.HOURS);
    double apart = (width - 2 * SIDE) / Math.max(1, Duration.between(from, to).toHours());
    int every = apart >= 24 ? 1 : apart >= 12 ? 2 : 4;
    while (!hour.toInstant().isAfter(to)) {
      if (!hour.toInstant().isBefore(from) && hour.getHour() % every == 0) {
        double x = x(hour.toInstant());
        drawing.line("day-tick", x, HEIGHT, x, HEIGHT + 5);
        drawing.text("p-label", x, HEIGHT + 18, "middle", String.valueOf(hour.getHour()));
      }
      hour = hour.plusHours(1);
    }
  }
}

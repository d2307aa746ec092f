package org.lightledger.cli;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.SpotDay;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.DirectSun;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineSource;

/**
 * What stands around a spot and what follows from it on one day, for machines and for people.
 *
 * @param skyline the spot's; null when none was made
 * @param remarks what the owner should know of it
 * @param day the day; null when the spot's zone is not known
 */
record SpotSkyline(@Nullable Skyline skyline, List<String> remarks, @Nullable SpotDay day) {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  /** Eight directions are enough to see at a glance what stands around. */
  private static final int SHOWN_EVERY_STEPS = Skyline.STEPS / 8;

  private boolean known() {
    return skyline != null && !skyline.equals(Skyline.notKnown());
  }

  @Nullable Map<String, @Nullable Object> skylineJson() {
    if (skyline == null || !known()) {
      return null;
    }
    Map<SkylineSource, Integer> steps = new EnumMap<>(SkylineSource.class);
    for (int step = 0; step < Skyline.STEPS; step++) {
      steps.merge(skyline.source(step), 1, Integer::sum);
    }
    Json.Fields sources = Json.fields();
    steps.forEach((source, count) -> sources.put(code(source), count));
    return Json.fields()
        .put("stepDeg", Skyline.STEP_DEG)
        .put(
            "anglesDeg",
            IntStream.range(0, Skyline.STEPS)
                .mapToObj(step -> Json.angle(skyline.altitudeDeg(step)))
                .toList())
        .put("stepsBySource", sources.map())
        .put("remarks", remarks)
        .map();
  }

  @Nullable Map<String, @Nullable Object> dayJson() {
    SpotDay shown = day;
    DirectSun direct = shown == null ? null : shown.direct();
    if (shown == null || direct == null || !known()) {
      return null;
    }
    return Json.fields()
        .put("date", shown.day().date().toString())
        .put("directSun", direct.stretches().stream().map(this::stretchJson).toList())
        .put("openShade", shown.openShade().stream().map(this::windowJson).toList())
        .put("lostBeforeSunsetS", shown.lostBeforeSunset().map(Duration::toSeconds).orElse(null))
        .map();
  }

  private Map<String, @Nullable Object> stretchJson(DirectSun.Stretch stretch) {
    return Json.fields()
        .put("from", Json.time(local(stretch.from())))
        .put("to", Json.time(local(stretch.to())))
        .put("earliestFrom", Json.time(local(stretch.earliestFrom())))
        .put("latestTo", Json.time(local(stretch.latestTo())))
        .put("lowerBoundOnly", stretch.lowerBoundOnly())
        .map();
  }

  private Map<String, @Nullable Object> windowJson(DirectSun.Window window) {
    return Json.fields()
        .put("from", Json.time(local(window.from())))
        .put("to", Json.time(local(window.to())))
        .map();
  }

  private OffsetDateTime local(Instant instant) {
    ZoneId zone = day == null ? ZoneOffset.UTC : day.day().zone();
    return instant.atZone(zone).toOffsetDateTime();
  }

  private static String code(SkylineSource source) {
    return source.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  String text() {
    if (skyline == null || !known()) {
      return String.format(Locale.ROOT, "  The skyline is not known.%n");
    }
    StringBuilder text = new StringBuilder("  Skyline:");
    for (int step = 0; step < Skyline.STEPS; step += SHOWN_EVERY_STEPS) {
      text.append(
          String.format(
              Locale.ROOT,
              " %s %.1f°",
              Bearing.of(Skyline.azimuthDeg(step)).compassPoint(),
              skyline.altitudeDeg(step)));
    }
    text.append(String.format(Locale.ROOT, "%n"));
    List<String> lines = new ArrayList<>(remarks);
    SpotDay shown = day;
    DirectSun direct = shown == null ? null : shown.direct();
    if (shown != null && direct != null) {
      lines.add(directText(shown, direct));
    }
    lines.forEach(line -> text.append(String.format(Locale.ROOT, "  %s%n", line)));
    return text.toString();
  }

  private String directText(SpotDay shown, DirectSun direct) {
    if (direct.stretches().isEmpty()) {
      return "No direct sun on " + shown.day().date() + ".";
    }
    StringBuilder text = new StringBuilder("Direct sun on " + shown.day().date() + ":");
    for (DirectSun.Stretch stretch : direct.stretches()) {
      text.append(
          String.format(
              Locale.ROOT,
              " %s to %s,",
              HOUR.format(local(stretch.from())),
              HOUR.format(local(stretch.to()))));
    }
    text.setLength(text.length() - 1);
    shown
        .lostBeforeSunset()
        .filter(lost -> lost.compareTo(Duration.ofMinutes(1)) >= 0)
        .ifPresent(
            lost -> text.append(", gone " + lost.toMinutes() + " minutes before the sunset"));
    return text.append('.').toString();
  }
}

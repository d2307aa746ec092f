package org.lightledger.web;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.SpotDay;
import org.lightledger.ask.SpotLight;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.DirectSun;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDay;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.sun.SunEventKind;
import org.lightledger.sun.SunState;
import org.lightledger.web.chart.DayBar;

/** Says when the sun reaches a spot on a day, how sure that is, and what is not known. */
final class DayViews {
  private static final Duration STEP = Duration.ofMinutes(1);

  private final ZoneId zone;
  private final SunDay.Lived lived;
  private final List<DayBar.Span> spans;

  private DayViews(SunDay.Lived lived, List<DayBar.Span> spans) {
    this.zone = lived.zone();
    this.lived = lived;
    this.spans = spans;
  }

  static SkyView.Day day(SunEphemeris sun, SpotDay day, @Nullable Skyline skyline) {
    if (!(day.day() instanceof SunDay.Lived)) {
      String why = day.day().absence(SunEventKind.SUNRISE).orElse("the date does not exist");
      return new SkyView.Day(
          null,
          null,
          List.of(
              new SkyView.Fact(
                  "This date",
                  "down",
                  List.of(
                      "does not exist here: the zone left it out ("
                          + why
                          + "). Choose another"
                          + " day."))));
    }
    SunDay.Lived lived = (SunDay.Lived) day.day();
    List<DayBar.Span> spans = spans(sun, lived, skyline);
    DayViews views = new DayViews(lived, spans);
    return new SkyView.Day(
        DayBar.draw(spans, lived.zone(), DayBar.Size.WIDE),
        DayBar.draw(spans, lived.zone(), DayBar.Size.NARROW),
        views.facts(day));
  }

  /** The whole day; what comes and goes within a minute is not seen. */
  private static List<DayBar.Span> spans(
      SunEphemeris sun, SunDay.Lived lived, @Nullable Skyline skyline) {
    SunCurve curve = SunCurve.of(sun, lived.start().minus(STEP), lived.end().plus(STEP));
    List<DayBar.Span> spans = new ArrayList<>();
    Instant from = lived.start();
    Instant before = lived.start();
    DayBar.Kind last = kind(curve.direction(before, lived.place()), skyline);
    while (before.isBefore(lived.end())) {
      Instant at = before.plus(STEP).isBefore(lived.end()) ? before.plus(STEP) : lived.end();
      DayBar.Kind kind = kind(curve.direction(at, lived.place()), skyline);
      if (kind != last) {
        Instant change = before;
        for (Duration step = STEP.dividedBy(2); step.toMillis() > 0; step = step.dividedBy(2)) {
          Instant middle = change.plus(step);
          boolean same = kind(curve.direction(middle, lived.place()), skyline) == last;
          change = same ? middle : change;
        }
        spans.add(new DayBar.Span(last, from, change));
        from = change;
      }
      last = kind;
      before = at;
    }
    spans.add(new DayBar.Span(last, from, lived.end()));
    return spans;
  }

  private static DayBar.Kind kind(SunDirection sun, @Nullable Skyline skyline) {
    SpotLight light = SpotLight.of(sun, sun.azimuth(), skyline);
    if (light.light() == LightClass.TWILIGHT || light.light() == LightClass.DARK) {
      return DayBar.Kind.DOWN;
    }
    Boolean direct = light.directSun();
    if (direct == null) {
      return DayBar.Kind.NOT_KNOWN;
    }
    return direct ? DayBar.Kind.DIRECT : DayBar.Kind.SHADE;
  }

  private List<SkyView.Fact> facts(SpotDay day) {
    List<SkyView.Fact> facts = new ArrayList<>();
    facts.add(new SkyView.Fact("By the almanac", "almanac", List.of(almanac())));
    if (lived.state() == SunState.ALWAYS_DOWN) {
      return facts;
    }
    DirectSun direct = day.direct();
    List<String> sunny = direct == null ? List.of() : sunny(direct);
    List<String> notKnown = windows(DayBar.Kind.NOT_KNOWN);
    if (!sunny.isEmpty()) {
      facts.add(new SkyView.Fact("Direct sun", "direct", sunny));
    } else if (notKnown.isEmpty()) {
      facts.add(new SkyView.Fact("Direct sun", "direct", List.of("none on this day")));
    }
    List<String> shade =
        day.openShade().stream().map(window -> window(window.from(), window.to())).toList();
    if (!shade.isEmpty()) {
      facts.add(new SkyView.Fact("Open shade", "shade", shade));
    }
    if (!notKnown.isEmpty()) {
      facts.add(new SkyView.Fact("Not known", "not-known", notKnown));
    }
    lost(day).ifPresent(words -> facts.add(new SkyView.Fact("Before sunset", "lost", words)));
    return facts;
  }

  private String almanac() {
    if (lived.state() == SunState.ALWAYS_UP) {
      return "Polar day: the sun stays above the horizon all day.";
    }
    if (lived.state() == SunState.ALWAYS_DOWN) {
      return "Polar night: the sun stays below the horizon all day.";
    }
    return Words.capital(event(SunEventKind.SUNRISE) + "; " + event(SunEventKind.SUNSET));
  }

  private String event(SunEventKind kind) {
    List<String> times = lived.events(kind).stream().map(event -> hour(event.at())).toList();
    return times.isEmpty()
        ? lived.absence(kind).orElse("no " + kind.label())
        : kind.label() + " " + String.join(" and ", times);
  }

  private List<String> windows(DayBar.Kind kind) {
    return spans.stream()
        .filter(span -> span.kind() == kind)
        .map(span -> window(span.from(), span.to()))
        .toList();
  }

  private String window(Instant from, Instant to) {
    return hour(from) + " to " + hour(to);
  }

  /** The stretches of direct sun, cut where it is not known whether something higher stands. */
  private List<String> sunny(DirectSun direct) {
    List<String> lines = new ArrayList<>();
    for (DirectSun.Stretch stretch : direct.stretches()) {
      for (DayBar.Span span : spans) {
        boolean overlaps = span.from().isBefore(stretch.to()) && span.to().isAfter(stretch.from());
        if (span.kind() == DayBar.Kind.DIRECT && overlaps) {
          lines.add(piece(stretch, span));
        }
      }
    }
    return lines;
  }

  private String piece(DirectSun.Stretch stretch, DayBar.Span span) {
    boolean starts = near(span.from(), stretch.from());
    boolean ends = near(span.to(), stretch.to());
    String from =
        starts && !stretch.from().equals(lived.start())
            ? edge(stretch.from(), stretch.earliestFrom(), certainFrom(stretch))
            : hour(span.from());
    String to =
        ends && !stretch.to().equals(lived.end())
            ? edge(stretch.to(), certainTo(stretch), stretch.latestTo())
            : hour(span.to());
    String doubt =
        stretch.certain().isEmpty()
            ? "; perhaps not at all, for the skyline is that uncertain"
            : stretch.certain().size() > 1 ? "; perhaps with gaps" : "";
    return from + " to " + to + doubt;
  }

  private static boolean near(Instant one, Instant other) {
    return Duration.between(one, other).abs().compareTo(STEP) <= 0;
  }

  private static Instant certainFrom(DirectSun.Stretch stretch) {
    return stretch.certain().isEmpty() ? stretch.from() : stretch.certain().get(0).from();
  }

  private static Instant certainTo(DirectSun.Stretch stretch) {
    List<DirectSun.Window> certain = stretch.certain();
    return certain.isEmpty() ? stretch.to() : certain.get(certain.size() - 1).to();
  }

  /** A time, with the times between which it lies when they differ by a minute of the clock. */
  private String edge(Instant at, Instant earliest, Instant latest) {
    String low = hour(earliest);
    String high = hour(latest);
    return low.equals(high) ? hour(at) : hour(at) + " (between " + low + " and " + high + ")";
  }

  /** How long before sunset the sun is gone. */
  private Optional<List<String>> lost(SpotDay day) {
    DirectSun direct = day.direct();
    List<Instant> sunsets =
        lived.events(SunEventKind.SUNSET).stream().map(event -> event.at()).toList();
    if (direct == null || sunsets.isEmpty()) {
      return Optional.empty();
    }
    Instant sunset = sunsets.get(sunsets.size() - 1);
    if (lastUp(sunset) == DayBar.Kind.NOT_KNOWN) {
      return Optional.of(
          List.of("when the sun leaves before the sunset at " + hour(sunset) + " is not known"));
    }
    return day.lostBeforeSunset()
        .map(lost -> List.of(lost(lost, lastBefore(direct, sunset), sunset)));
  }

  private static DirectSun.Stretch lastBefore(DirectSun direct, Instant sunset) {
    DirectSun.Stretch last = direct.stretches().get(0);
    for (DirectSun.Stretch stretch : direct.stretches()) {
      last = stretch.from().isBefore(sunset) ? stretch : last;
    }
    return last;
  }

  /** What the sun did last before sunset, leaving out shade. */
  private DayBar.Kind lastUp(Instant sunset) {
    DayBar.Kind last = DayBar.Kind.DOWN;
    for (DayBar.Span span : spans) {
      boolean lit = span.kind() == DayBar.Kind.DIRECT || span.kind() == DayBar.Kind.NOT_KNOWN;
      last = lit && span.from().isBefore(sunset) ? span.kind() : last;
    }
    return last;
  }

  private String lost(Duration lost, DirectSun.Stretch last, Instant sunset) {
    if (lost.toMinutes() < 1) {
      return "the sun stays on the spot until it sets at " + hour(sunset);
    }
    long least = Math.max(0, Duration.between(last.latestTo(), sunset).toMinutes());
    long most = Math.max(0, Duration.between(certainTo(last), sunset).toMinutes());
    String range = least == most ? "" : " (between " + least + " and " + most + ")";
    return "the sun is gone "
        + Words.count((int) lost.toMinutes(), "minute", "minutes")
        + range
        + " before the published sunset at "
        + hour(sunset);
  }

  private String hour(Instant instant) {
    return instant.equals(lived.end())
        ? "the end of the day"
        : Words.hour(instant.atZone(zone).toOffsetDateTime());
  }
}

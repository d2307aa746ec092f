package org.lightledger.web.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.ask.LightCalendar;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.sun.SpaEphemeris;
import org.w3c.dom.Element;

class SkyChartsTest {
  private static final GeoPoint VALLEY = new GeoPoint(41.95, -6.61);
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);

  /** Known to 10 degrees in the east, at least 20 in the south, nothing known in the west. */
  private static Skyline mixed() {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < 300; step++) {
      builder.set(step, 10, 1, SkylineSource.TERRAIN, EnumSet.noneOf(SkylineFlag.class));
    }
    for (int step = 300; step < 420; step++) {
      builder.set(step, 20, 1, SkylineSource.TERRAIN, EnumSet.of(SkylineFlag.LEFT_KNOWN_ELEVATION));
    }
    return builder.build();
  }

  private static Skyline level(double altitudeDeg) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.5, SkylineSource.TERRAIN, EnumSet.noneOf(SkylineFlag.class));
    }
    return builder.build();
  }

  private static Parsed paths(Skyline skyline, SunPathChart.Size size) {
    return new Parsed(
        SunPathChart.draw(
            new SpaEphemeris(),
            "chart",
            new SunPathChart.Model(VALLEY, MADRID, DAY, List.of(), List.of(), skyline, null),
            size));
  }

  @ParameterizedTest
  @EnumSource(SunPathChart.Size.class)
  void knownBoundAndNotKnownLookDifferent(SunPathChart.Size size) {
    Parsed chart = paths(mixed(), size);

    assertThat(chart.all("path", "sky-part")).hasSize(1);
    assertThat(chart.all("path", "sky-edge-part")).hasSize(1);
    assertThat(chart.all("path", "sky-hatch")).hasSize(1);
    assertThat(chart.all("path", "sky-void")).hasSize(1);
    assertThat(chart.all("path", "sky-land")).hasSize(2);
    assertThat(chart.all("path", "sky-band")).as("of what is known and of the bound").hasSize(2);
  }

  @Test
  void theSilhouetteStandsAtItsAltitudeAndHidesTheSunBelow() {
    Parsed chart = paths(level(20), SunPathChart.Size.WIDE);
    double twenty =
        chart.all("text", "p-label").stream()
            .filter(text -> text.getTextContent().equals("20°"))
            .mapToDouble(text -> Parsed.number(text, "y") - 4)
            .findFirst()
            .orElseThrow();
    String edge = chart.one("path", "sky-edge").getAttribute("d");

    assertThat(ys(edge)).allMatch(y -> Math.abs(y - twenty) < 0.1);
    for (Element line : chart.all("path", "p-today")) {
      boolean hidden = line.getAttribute("class").contains("p-hidden");
      assertThat(ys(line.getAttribute("d")))
          .as(hidden ? "behind" : "in front")
          .allMatch(y -> hidden ? y > twenty - 0.5 : y < twenty + 0.5);
    }
    assertThat(chart.all("path", "p-hidden")).hasSize(4);
  }

  private static List<Double> ys(String data) {
    return List.of(data.substring(1).split("[ML]")).stream()
        .map(point -> Double.parseDouble(point.substring(point.indexOf(' ') + 1)))
        .toList();
  }

  @ParameterizedTest
  @EnumSource(CalendarChart.Size.class)
  void everyLightOfTheYearHasAnAreaAndTheLargeOnesAWord(CalendarChart.Size size) {
    LightCalendar calendar =
        LightCalendar.of(new SpaEphemeris(), VALLEY, MADRID, Bearing.of(234), level(8), 2026, 2, 5);
    Svg svg = CalendarChart.draw("year", calendar, size, DAY);
    Parsed chart = new Parsed(svg);
    EnumSet<LightClass> lights = EnumSet.noneOf(LightClass.class);
    calendar
        .columns()
        .forEach(column -> column.stream().filter(l -> l != null).forEach(lights::add));

    for (LightClass light : lights) {
      assertThat(chart.all("path", "cal-" + light.code())).as(light.label()).hasSize(1);
    }
    List<String> words =
        chart.all("text", "cal-word").stream().map(Element::getTextContent).toList();
    assertThat(words).contains("backlit", "dark", "overhead").contains("side");
    assertThat(words).allMatch(word -> !word.isEmpty());
    assertThat(chart.all("line", "cal-day")).hasSize(1);
    assertThat(svg.markup()).doesNotContain("NaN");
  }

  @Test
  void hoursThatAreDarkAllYearAreLeftOut() {
    LightCalendar calendar =
        LightCalendar.of(new SpaEphemeris(), VALLEY, MADRID, Bearing.of(0), null, 2026, 2, 5);

    assertThat(CalendarChart.firstHour(calendar)).isEqualTo(6);
    assertThat(CalendarChart.lastHour(calendar)).isEqualTo(23);
  }

  @Test
  void theDayBarShowsEachStretchInItsPlace() {
    Instant start = Instant.parse("2026-11-25T00:00:00Z");
    Parsed bar =
        new Parsed(
            DayBar.draw(
                List.of(
                    new DayBar.Span(DayBar.Kind.DOWN, start, start.plusSeconds(8 * 3600)),
                    new DayBar.Span(
                        DayBar.Kind.SHADE, start.plusSeconds(8 * 3600), start.plusSeconds(36000)),
                    new DayBar.Span(
                        DayBar.Kind.DIRECT, start.plusSeconds(36000), start.plusSeconds(57600)),
                    new DayBar.Span(
                        DayBar.Kind.DOWN, start.plusSeconds(57600), start.plusSeconds(86400))),
                ZoneId.of("UTC"),
                DayBar.Size.WIDE));
    Element shade = bar.one("rect", "day-shade");
    Element direct = bar.one("rect", "day-direct");

    assertThat(Parsed.number(direct, "x"))
        .as("numbers are written with two decimals")
        .isCloseTo(Parsed.number(shade, "x") + Parsed.number(shade, "width"), within(0.02));
    assertThat(Parsed.number(direct, "width") / Parsed.number(shade, "width"))
        .as("six hours to two")
        .isBetween(2.99, 3.01);
    assertThat(bar.one("text", "day-word-direct").getTextContent()).isEqualTo("direct sun");
  }
}

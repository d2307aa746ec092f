package org.lightledger.web.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.spot.Facing;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;
import org.w3c.dom.Element;

class SunPathChartTest {
  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final GeoPoint VALLEY = new GeoPoint(41.95, -6.61);
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  private static final Facing WEST = new Facing(new Bearing(247), 15, Facing.Origin.SHOTS, 3);

  private static Svg draw(GeoPoint place, ZoneId zone, SunPathChart.Size size) {
    return SunPathChart.draw(
        SUN,
        "chart",
        new SunPathChart.Model(place, zone, DAY, List.of(WEST), List.of(), null, null),
        size);
  }

  @ParameterizedTest
  @EnumSource(SunPathChart.Size.class)
  void eachSizeHasFourCurvesAndALaneForTheFacing(SunPathChart.Size size) {
    Parsed chart = new Parsed(draw(VALLEY, MADRID, size));

    assertThat(chart.all("path", "p-solstice")).hasSize(2);
    assertThat(chart.all("path", "p-equinox")).hasSize(1);
    assertThat(chart.all("path", "p-today")).hasSize(1);
    assertThat(chart.one("text", "p-lane-name").getTextContent()).startsWith("facing WSW 247°");
  }

  /** Between two drawn altitudes of the grid the scale is linear; 13:00 is near the day's top. */
  @Test
  void anHourOfTodayStandsWhereTheSunStands() {
    Parsed chart = new Parsed(draw(VALLEY, MADRID, SunPathChart.Size.WIDE));
    SunDirection noon = SUN.direction(DAY.atTime(13, 0).atZone(MADRID).toInstant(), VALLEY);
    double horizon = gridLine(chart, "0°");
    double ten = gridLine(chart, "10°");
    double expected = horizon + (ten - horizon) * noon.apparentAltitudeDeg() / 10;
    Element clock =
        chart.all("text", "p-clock-today").stream()
            .filter(text -> text.getTextContent().equals("13"))
            .findFirst()
            .orElseThrow();

    assertThat(Parsed.number(clock, "y") + 7).isCloseTo(expected, within(0.1));
  }

  private static double gridLine(Parsed chart, String label) {
    return chart.all("text", "p-label").stream()
        .filter(text -> text.getTextContent().equals(label))
        .mapToDouble(text -> Parsed.number(text, "y") - 4)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void theClockIsThePlacesAndFollowsItsSummerTime() {
    GeoPoint place = new GeoPoint(41.95, 0);
    Parsed utc = new Parsed(draw(place, ZoneOffset.UTC, SunPathChart.Size.WIDE));
    Parsed madrid = new Parsed(draw(place, MADRID, SunPathChart.Size.WIDE));

    assertThat(hoursOf(utc, "p-clock-today")).contains("8", "16").doesNotContain("17");
    assertThat(hoursOf(madrid, "p-clock-today")).contains("9", "17").doesNotContain("7");
  }

  private static List<String> hoursOf(Parsed chart, String cssClass) {
    return chart.all("text", cssClass).stream().map(Element::getTextContent).toList();
  }

  @ParameterizedTest(name = "{2} has its middle at {3}")
  @CsvSource({
    "78.22, 15.65, Svalbard, S",
    "-33.86, 151.21, Sydney, N",
    "0.0, 32.0, the equator, S",
    "-54.8, -68.3, Ushuaia, N"
  })
  void theMiddleIsWhereTheSunStandsHighest(double lat, double lon, String name, String middle) {
    Svg svg = draw(new GeoPoint(lat, lon), ZoneOffset.UTC, SunPathChart.Size.WIDE);
    Parsed chart = new Parsed(svg);
    List<Element> points = chart.all("text", "p-point");

    assertThat(points.get(points.size() / 2).getTextContent()).as(name).isEqualTo(middle);
    assertThat(svg.markup()).doesNotContain("NaN").doesNotContain("Infinity");
  }

  @Test
  void noCurveJumpsAcrossTheChartWhereAzimuthsWrap() {
    Parsed chart = new Parsed(draw(new GeoPoint(-10, 20), ZoneOffset.UTC, SunPathChart.Size.WIDE));

    for (Element curve : chart.all("path", "p-solstice")) {
      double lastX = Double.NaN;
      for (String step : curve.getAttribute("d").split("(?=[ML])")) {
        double x = Double.parseDouble(step.substring(1, step.indexOf(' ')));
        if (step.charAt(0) == 'L') {
          assertThat(Math.abs(x - lastX)).isLessThan(360);
        }
        lastX = x;
      }
    }
  }

  @Test
  void theLaneNamesTheLightThatTheRulesGive() {
    Parsed chart = new Parsed(draw(VALLEY, MADRID, SunPathChart.Size.WIDE));
    double south = xOf(chart, "S");
    double west = xOf(chart, "W");

    for (int azimuthDeg = 60; azimuthDeg < 300; azimuthDeg += 7) {
      double x = south + (azimuthDeg - 180) * (west - south) / 90;
      LightClass expected =
          LightRules.classify(10, 10, WEST.bearing().turnToDeg(new Bearing(azimuthDeg)));

      assertThat(laneAt(chart, x)).as("azimuth %s", azimuthDeg).isEqualTo(expected);
    }
  }

  private static LightClass laneAt(Parsed chart, double x) {
    for (LightClass light : LightClass.values()) {
      for (Element lane : chart.all("rect", "lane-" + light.code())) {
        double left = Parsed.number(lane, "x");
        if (x >= left && x < left + Parsed.number(lane, "width")) {
          return light;
        }
      }
    }
    throw new AssertionError("no lane at " + x);
  }

  private static double xOf(Parsed chart, String point) {
    return chart.all("text", "p-point").stream()
        .filter(text -> text.getTextContent().equals(point))
        .mapToDouble(text -> Parsed.number(text, "x"))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void aShotLinksToItsPictureAndItsWordsAreEscaped() {
    SunPathChart.ShotSun shot =
        new SunPathChart.ShotSun(
            "#shot-7\"><b>", "<i>noon</i> & more", new SunDirection(new Bearing(200), 20, 20));
    Parsed chart =
        new Parsed(
            SunPathChart.draw(
                SUN,
                "chart",
                new SunPathChart.Model(VALLEY, MADRID, DAY, List.of(), List.of(shot), null, null),
                SunPathChart.Size.WIDE));
    Element link = (Element) chart.root().getElementsByTagName("a").item(0);

    assertThat(link.getAttribute("href")).isEqualTo("#shot-7\"><b>");
    assertThat(link.getAttribute("aria-label")).isEqualTo("<i>noon</i> & more");
    assertThat(chart.root().getElementsByTagName("b").getLength()).isZero();
  }
}

package org.lightledger.web.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Facing;
import org.lightledger.sun.SunDirection;
import org.w3c.dom.Element;

class FacingDialTest {

  @ParameterizedTest
  @CsvSource({"0, 60, 18", "90, 102, 60", "180, 60, 102", "270, 18, 60"})
  void northIsUpAndEastIsRight(double azimuthDeg, double x, double y) {
    SunDirection sun = new SunDirection(new Bearing(azimuthDeg), 10, 10.1);
    Element line = new Parsed(FacingDial.moment(new Bearing(10), 15, sun)).one("line", "d-sunline");

    assertThat(Parsed.number(line, "x2")).isCloseTo(x, within(0.01));
    assertThat(Parsed.number(line, "y2")).isCloseTo(y, within(0.01));
  }

  @Test
  void aSunBelowTheHorizonIsHollow() {
    SunDirection below = new SunDirection(new Bearing(250), -3, -3);

    Parsed dial = new Parsed(FacingDial.moment(new Bearing(10), 15, below));

    assertThat(dial.all("circle", "d-below")).hasSize(1);
  }

  @Test
  void wordsTellScreenReadersTheFacings() {
    Parsed dial =
        new Parsed(
            FacingDial.facings(
                "dial",
                List.of(new Facing(new Bearing(245.4), 20, Facing.Origin.OWNER, 0)),
                true,
                null));

    assertThat(dial.root().getElementsByTagName("desc").item(0).getTextContent())
        .isEqualTo(
            "Open: any direction works. WSW, 245 degrees, good for 20 degrees to either side.");
  }

  @Test
  void aFacingGoodAllAroundIsAFullDiscAndNotAnEmptyOne() {
    Parsed dial =
        new Parsed(
            FacingDial.facings(
                "dial",
                List.of(new Facing(new Bearing(0), 180, Facing.Origin.OWNER, 0)),
                false,
                null));

    assertThat(dial.one("path", "d-look").getAttribute("d")).contains(" 0 1 1 ");
  }
}

package org.lightledger.web.chart;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;

class LightRingTest {

  @Test
  void everyThresholdOfTheRulesStandsOnBothSides() {
    Parsed ring = new Parsed(LightRing.draw());

    assertThat(ring.all("text", "ring-degree").stream().map(Element::getTextContent))
        .containsExactlyInAnyOrder("30°", "30°", "75°", "75°", "105°", "105°", "150°", "150°");
  }

  @Test
  void wordsSayTheSame() {
    Parsed ring = new Parsed(LightRing.draw());

    assertThat(ring.root().getElementsByTagName("desc").item(0).getTextContent())
        .contains("backlit up to 30", "rim up to 75", "side up to 105", "front up to 150");
  }
}

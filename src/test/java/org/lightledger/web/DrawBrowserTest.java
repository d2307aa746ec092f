package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.store.StoredObstruction;
import org.openqa.selenium.Keys;

/** Drawing by hand and the shadows on the ground in a real browser, at two widths. */
class DrawBrowserTest {
  private static final String HOME = "/surroundings/obstructions";

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
  }

  @AfterEach
  void close() {
    site.close();
  }

  private Browser browser(Browser.Viewport viewport) {
    return Browser.open(viewport, site.address(), folder.resolve("profile"));
  }

  private List<StoredObstruction> drawn() {
    return site.ledger().read(session -> session.obstructions().ofOwner());
  }

  private void draw(String name, String kind, String shape, String corners, String height) {
    assertThat(
            site.post(
                    HOME, "name", name, "kind", kind, "shape", shape, "corners", corners, "height",
                    height, "width", "8")
                .status())
        .isEqualTo(303);
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void cornersAreClickedTakenBackAndKept(Browser.Viewport viewport) {
    try (Browser browser = browser(viewport)) {
      browser.go(HOME + "?spot=1");
      browser.await(".pin-spot");
      browser.look("draw-empty");
      browser.tap("#drawmap", 0.4, 0.55);
      browser.tap("#drawmap", 0.6, 0.55);
      browser.tap("#drawmap", 0.6, 0.7);
      browser.tap("#drawmap", 0.4, 0.7);
      browser.tap("#drawmap", 0.3, 0.3);
      browser.click("[data-pen=back]");
      assertThat(browser.find("#f-corners").getDomProperty("value").lines()).hasSize(4);
      assertThat(browser.find("[data-pen-said]").getText()).isEqualTo("4 corners");
      browser.find("#f-name").sendKeys("Boat house");
      browser.find("#f-height").sendKeys("7");
      browser.look("draw-pen");
      browser.find("#f-height").sendKeys(Keys.ENTER);
      browser.await("#drawn", list -> list.getText().contains("Boat house"));

      assertThat(drawn()).hasSize(1);
      assertThat(drawn().get(0).obstruction().outline().getNumPoints()).isEqualTo(5);
      assertThat(browser.all(".map .drawn")).hasSize(1);
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theShadowsOfAnHourLieOnTheMapAndFollowIt(Browser.Viewport viewport) {
    draw(
        "The mill",
        "building",
        "outline",
        "41.94982,-6.61012\n41.94982,-6.60988\n41.94964,-6.60988\n41.94964,-6.61012",
        "12");
    draw("Poplars by the river", "tree-row", "line", "41.9504,-6.6112\n41.9503,-6.6092", "");
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1?day=2026-12-15&at=13:30");
      browser.await(".pin-spot");
      browser.look("draw-spot");
      browser.run("document.querySelector('.mapsheet p > a').click()");
      browser.await("#shadowwords", words -> words.getText().contains("At 13:30"));
      browser.await(".map .shadow");
      assertThat(browser.find("#shadowwords").getText()).contains("In the shadow: ");
      browser.look("draw-shadows");
      browser.run(
          "const s = document.getElementById('f-minute'); s.value = 420;"
              + " s.dispatchEvent(new Event('input', {bubbles: true}))");
      browser.await("#shadowwords", words -> words.getText().contains("the sun is not up"));
      assertThat(browser.find("#f-at").getDomProperty("value")).isEqualTo("07:00");
      assertThat(browser.all(".map .shadow")).isEmpty();
      browser.go(HOME + "/" + drawn().get(1).id() + "?spot=1");
      browser.await(".map .pen-corner");
      browser.look("draw-change");
      browser.go("/shots/1");
      browser.run("document.querySelectorAll('details').forEach(d => { d.open = true; })");
      browser.look("draw-suggestion");
      assertThat(browser.complaints()).isEmpty();
    }
  }
}

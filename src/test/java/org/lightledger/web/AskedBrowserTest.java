package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.openqa.selenium.Keys;

/** More of a question, kept questions and plans at a spot, in a real browser. */
class AskedBrowserTest {
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

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theQuestionWithTermsAndThePlansFitAndHaveNoBarriers(Browser.Viewport viewport) {
    site.post("/spots/1", "name", "Mill", "with", "water", "with", "parking");
    site.post("/questions", "keep-name", "December by the river", "query", AskedRoutesTest.ASKED);
    try (Browser browser = browser(viewport)) {
      browser.go("/?" + AskedRoutesTest.ASKED + "&with=water&weekday=saturday&least=20&kept=1");
      browser.await(".pin-numbered");
      browser.run("document.querySelectorAll('details').forEach(d => { d.open = true; })");
      browser.look("asked-more");
      browser.go(
          "/spots/1?when-light=backlit&when-from=2026-12-01&when-to=2026-12-05&plan-day=2027-01-20"
              + "&plan-at=16:30&line=240");
      browser.await(".pin-spot");
      browser.run("document.querySelectorAll('.plans details').forEach(d => { d.open = true; })");
      browser.look("asked-plans");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void aShapeIsDrawnByClicksAndAsksAtOnce(Browser.Viewport viewport) {
    try (Browser browser = browser(viewport)) {
      browser.go("/?" + AskedRoutesTest.ASKED);
      browser.await(".pin-numbered");
      browser.run("document.querySelectorAll('.fold, .more').forEach(d => { d.open = true; })");
      browser.find("[data-shape]").sendKeys(Keys.ENTER);
      browser.tap("[data-map]", 0.2, 0.2);
      browser.tap("[data-map]", 0.75, 0.25);
      browser.tap("[data-map]", 0.5, 0.75);
      assertThat(browser.find("#shape-said").getText()).contains("3 corners");
      browser.find("[data-shape]").sendKeys(Keys.ENTER);
      browser.await(".terms", terms -> terms.getText().contains("inside a shape of 3 corners"));

      assertThat(browser.path()).contains("inside=");
      assertThat(browser.all(".map .shape")).hasSize(1);
      browser.look("asked-shape");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theTermsAreTickedByTheKeyboard(Browser.Viewport viewport) {
    try (Browser browser = browser(viewport)) {
      browser.go("/?" + AskedRoutesTest.ASKED);
      browser.await(".pin-numbered");
      browser.run("document.querySelectorAll('.fold').forEach(d => { d.open = true; })");
      browser.find(".more > summary").sendKeys(Keys.ENTER);
      browser.find("#f-weekday input[value=sunday]").sendKeys(Keys.SPACE);
      browser.await(".terms", terms -> terms.getText().contains("Sundays"));

      assertThat(browser.path()).contains("weekday=sunday");
      assertThat(browser.complaints()).isEmpty();
    }
  }
}

package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.skyline.MeasuredSkyline;
import org.openqa.selenium.Keys;

/** Skylines in a real browser, on a desktop and on a phone, in both colour schemes. */
class SkyBrowserTest {
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

  private void addLand() {
    site.post("/surroundings/elevation", "path", TestLand.write(folder.resolve("land")).toString());
    for (int i = 0; i < 100; i++) {
      site.get("/surroundings");
      if (site.ledger().read(session -> session.skylines().countDue()) == 0) {
        return;
      }
    }
    throw new AssertionError("the skylines are not made");
  }

  private Browser browser(Browser.Viewport viewport) {
    return Browser.open(viewport, site.address(), folder.resolve("profile"));
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void thePagesWithASkylineFitAndHaveNoBarriers(Browser.Viewport viewport) {
    addLand();
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1?day=2026-12-15&at=16:30");
      browser.await(".pin-spot");
      browser.run("document.querySelectorAll('details').forEach(d => { d.open = true; })");
      browser.look("sky-spot");
      browser.go(
          "/?light=backlit&light=rim&light=side&light=open-shade&from=2026-12-15&to=2026-12-15"
              + "&when=clock&at=16:30&until=16:30");
      browser.await(".pin-numbered");
      browser.look("sky-ask");
      browser.go("/surroundings");
      browser.look("surroundings");
      browser.go("/shots/1");
      browser.look("sky-shot");
      site.ledger()
          .change(
              session ->
                  session
                      .skylines()
                      .measure(
                          3,
                          List.of(
                              new MeasuredSkyline.Point(100, 12),
                              new MeasuredSkyline.Point(180, 4),
                              new MeasuredSkyline.Point(260, 9))));
      browser.go("/spots/3?day=2026-06-21&facing=90");
      browser.look("sky-measured");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void oneTapByTheKeyboardMakesTheSkylineAnew(Browser.Viewport viewport) {
    addLand();
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1?day=2026-12-15");
      browser.run("window.stayed = true");
      browser.find("#sun-1-no").sendKeys(Keys.ENTER);
      browser.await("#remarks", remarks -> remarks.getText().contains("Shot 1 shows shade"));

      assertThat(browser.find("#sun-1-no").getDomAttribute("aria-pressed")).isEqualTo("true");
      assertThat(browser.run("return document.activeElement.id")).isEqualTo("sun-1-no");
      assertThat(browser.run("return window.stayed")).isEqualTo(true);
      assertThat(browser.find("#day-head").getText()).contains("15 Dec 2026");
      browser.look("sky-remarks");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void dayFacingAndYearAreChosenWithoutLeavingThePage(Browser.Viewport viewport) {
    site.post("/spots/1/facings", "bearing", "90", "spread", "20");
    addLand();
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1?day=2026-12-15");
      browser.run("window.stayed = true");
      browser.find("#f-facing option[value='90']").click();
      browser.await("#year-head", head -> head.getText().contains("looking E 090°"));
      browser.find("#f-year").clear();
      browser.find("#f-year").sendKeys("2030", Keys.ENTER);
      browser.await("#year-head", head -> head.getText().contains("2030"));

      assertThat(browser.run("return window.stayed")).isEqualTo(true);
      assertThat(browser.path()).contains("facing=90", "year=2030", "day=2026-12-15");
      assertThat(browser.find("#day-head").getText()).contains("15 Dec 2026");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void withoutASkylineAndWithoutElevationThePagesFitToo(Browser.Viewport viewport) {
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1?day=2026-12-15");
      browser.await(".pin-spot");
      browser.look("sky-none");
      browser.go("/surroundings");
      browser.look("surroundings-empty");
      assertThat(browser.complaints()).isEmpty();
    }
  }
}

package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.PackItem;
import org.lightledger.spot.Trait;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** The session pages in a real browser: seen at two widths, used by keyboard alone. */
class SessionBrowserTest {
  private static final Instant SHOT = Instant.parse("2026-11-20T16:00:00Z");

  @TempDir static Path folder;
  private static TestSite site;

  @BeforeAll
  static void open() {
    site = new TestSite(folder).withPhotos();
    site.post(
        "/clients", "name", "Berta Alonso Vidal", "called", "Berta", "email", "b@example.org");
    site.post(
        "/clients",
        "name",
        "Nilo Quiroga Saavedra",
        "called",
        "Nilo",
        "minor",
        "yes",
        "guardian",
        "Marta Saavedra",
        "guardian-email",
        "marta@example.org");
    site.post("/sessions", "client", "1", "date", "2026-11-20", "package", "1");
    site.post("/sessions", "client", "2", "date", "2026-12-01", "package", "1");
    site.post("/sessions/2/candidates", "spot", "2");
    site.post("/sessions/2/candidates/2", "choice", "LOCKED", "arrival-2", "16:30", "stay-2", "40");
    site.post("/sessions/2/answers", "places-1", "water", "answer-2", "With my dog");
    site.post("/sessions/2/brief", "wishes", "With the dog", "goal", "One picture from below");
    site.ledger()
        .change(
            session -> {
              session.traits().set(1, Set.of(Trait.WATER));
              session.plans().keep(1, plan());
            });
    site.post("/sessions/1/state", "state", "DONE");
  }

  private static KeptPlan plan() {
    return new KeptPlan(
        SHOT.minusSeconds(86_400),
        Sky.CLEAR,
        false,
        SHOT.minusSeconds(1800),
        SHOT.plusSeconds(7200),
        new KeptPlan.Meeting("At the mill", null),
        List.of(
            stop(1, -1800, 900, 1, null, 234.0),
            stop(2, 2400, 5400, 2, new KeptPlan.Drive(7, KeptPlan.Drive.Source.ESTIMATED), 262.0)));
  }

  private static KeptPlan.Stop stop(
      long spot, long from, long to, int outfit, KeptPlan.Drive drive, double facingDeg) {
    return new KeptPlan.Stop(
        spot,
        SHOT.plusSeconds(from),
        SHOT.plusSeconds(from + 300),
        SHOT.plusSeconds(to - 300),
        SHOT.plusSeconds(to),
        outfit,
        List.of(),
        drive,
        new Bearing(facingDeg),
        null);
  }

  @AfterAll
  static void close() {
    site.close();
  }

  private static Browser browser(Browser.Viewport viewport, String profile) {
    return Browser.open(viewport, site.address(), folder.resolve(profile));
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void everyPageIsSeen(Browser.Viewport viewport) {
    try (Browser browser = browser(viewport, "seen-" + viewport)) {
      browser.go("/today");
      browser.look("session-today");
      browser.go("/sessions");
      browser.look("session-list");
      browser.go("/clients");
      browser.look("session-clients");
      browser.go("/clients/new");
      assertThat(browser.find("#f-guardian").isDisplayed()).isFalse();
      browser.click(".minorbox");
      assertThat(browser.find("#f-guardian").isDisplayed()).isTrue();
      browser.look("session-client");
      browser.go("/sessions/new?date=2026-12-15&client=1");
      browser.look("session-new");
      browser.go("/sessions/1");
      browser.look("session-after");
      browser.go("/sessions/2?find=1&light=front&light=side&light=backlit&light=rim");
      browser.run("document.querySelectorAll('details').forEach(d => { d.open = true; })");
      browser.look("session-page");
      browser.go(ScoutingRunRoutesTest.TWO + "&stop=3@2026-12-10T23:00");
      browser.look("session-scouting-run");
      browser.go("/sessions/2/plan?sky=clear&outfits=1&order=2");
      browser.look("session-planner");
      browser.go("/sessions/1/messages");
      browser.look("session-messages");
      browser.go("/settings/messages");
      browser.look("session-message-settings");
      browser.go("/sessions/1/call-sheet");
      browser.look("session-call-sheet");
      browser.go("/studio");
      browser.look("session-studio");
      browser.go("/spots/1");
      browser.run("document.getElementById('travel').scrollIntoView()");
      browser.look("session-spot");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  /** From an empty form to a ticked thing, without the mouse. */
  @Test
  void aSessionIsBookedAndPackedByKeyboard() {
    try (Browser browser = browser(Browser.Viewport.DESKTOP, "keys")) {
      browser.go("/sessions/new?client=1&date=2026-12-10");
      browser.find("#f-client").sendKeys("Nilo");
      browser.find("#f-minutes").sendKeys(Keys.chord(Keys.CONTROL, "a"), "-20", Keys.ENTER);
      browser.await("h1", head -> head.getText().equals("Nilo, Thu 10 Dec 2026"));
      assertThat(browser.find(".sessionfacts").getText()).contains("20 minutes before sunset");
      long id = Long.parseLong(browser.path().replaceAll("\\D", ""));
      WebElement first = browser.find(".ticker");
      assertThat(first.getDomAttribute("aria-pressed")).isEqualTo("false");
      first.sendKeys(Keys.SPACE);
      browser.await(".ticker", tick -> "true".equals(tick.getDomAttribute("aria-pressed")));
      browser.await("#pack [role=status]", said -> said.getText().equals("1 of 7 packed"));
      assertThat(browser.run("return document.activeElement.className")).isEqualTo("ticker");
      List<PackItem> items = site.ledger().read(session -> session.packing().items(id));
      assertThat(items.get(0).doneAt()).isNotNull();
      browser.find("#f-item").sendKeys("A red kite", Keys.ENTER);
      browser.await("#pack", pack -> pack.getText().contains("A red kite"));
      assertThat(browser.complaints()).isEmpty();
    }
  }
}

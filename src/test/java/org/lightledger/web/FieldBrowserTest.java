package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.field.FieldEntry;
import org.lightledger.session.PackItem;
import org.lightledger.skyline.SunOnSubject;
import org.openqa.selenium.Keys;

/** The day's plan on a phone whose network goes away, in a real browser. */
class FieldBrowserTest {
  @TempDir Path folder;

  private long shots(TestSite site) {
    return site.ledger().read(session -> session.shots().counts().all());
  }

  private static TestSite again(Path folder, int port) {
    return new TestSite(folder, new WebSettings("127.0.0.1", port, "127.0.0.1", 0, null), null);
  }

  /** The server is stopped, which also takes the network away from the page's worker. */
  @Test
  void planTicksAndShotsOutliveTheNetworkAndTheBrowserAndAreSentOnce() {
    Path profile = folder.resolve("profile");
    Path photo = folder.resolve("scout").resolve("scout.jpg");
    TestSite.write(photo.getParent(), "scout.jpg", FieldSite.photo());
    int port;
    String address;
    long before;
    try (TestSite site = FieldSite.open(folder)) {
      port = site.port();
      address = site.address();
      before = shots(site);
      takeAlong(profile, address);
    }

    try (Browser phone = Browser.open(Browser.Viewport.PHONE, address, profile)) {
      phone.go("/field");
      phone.await("#plan", part -> part.getText().contains("At the fountain"));
      phone.await("#carried", part -> part.getText().startsWith("On this phone"));
      phone.click("[data-item='1']");
      phone.find("#shot-file").sendKeys(photo.toAbsolutePath().toString());
      phone.await("#asking", part -> part.isDisplayed());
      phone.click("[data-word='yes']");
      phone.await(
          "#queue-said", part -> part.getText().startsWith("2 entries to send: no network"));
      phone.look("field-offline");
    }

    try (Browser phone = Browser.open(Browser.Viewport.PHONE, address, profile)) {
      phone.go("/field");
      phone.await("[data-item='1'][aria-pressed='true']");
      phone.await("#pack-said", part -> part.getText().equals("1 of 7 packed"));
      phone.await("#queue-said", part -> part.getText().startsWith("2 entries to send"));
      try (TestSite site = again(folder, port)) {
        loseTheFirstAnswer(phone);
        phone.click("#send");
        phone.await("#queue-said", part -> part.getText().contains("to send: no network"));
        phone.click("#send");
        phone.await("#queue-said", part -> part.getText().equals("Nothing waits to be sent."));
        phone.click("#send");
        phone.await("#queue .is-done");

        assertThat(shots(site)).isEqualTo(before + 1);
        List<FieldEntry> entries = site.ledger().read(session -> session.field().all());
        assertThat(entries.stream().map(FieldEntry::kind))
            .containsExactlyInAnyOrder(FieldEntry.Kind.TICK, FieldEntry.Kind.SHOT);
        long shotId =
            entries.stream()
                .filter(entry -> entry.kind() == FieldEntry.Kind.SHOT)
                .mapToLong(entry -> entry.shotId())
                .sum();
        SunOnSubject said =
            site.ledger().read(session -> session.skylines().sunOnSubjectOf(shotId).orElseThrow());
        assertThat(said).isEqualTo(SunOnSubject.YES);
        List<PackItem> items = site.ledger().read(session -> session.packing().items(1));
        assertThat(items.get(0).doneAt()).isNotNull();
      }
    }
  }

  private static void takeAlong(Path profile, String address) {
    try (Browser phone = Browser.open(Browser.Viewport.PHONE, address, profile)) {
      phone.go("/field");
      phone.await("#carried", part -> part.getText().equals("Not on this phone yet."));
      phone.click("#along");
      phone.await("#carried", part -> part.getText().contains("It opens without a network."));
      assertThat(phone.complaints()).isEmpty();
    }
  }

  /** The ledger has taken the entry in, but the phone never hears of it. */
  private static void loseTheFirstAnswer(Browser phone) {
    phone.run(
        "const real = window.fetch; let lost = false;"
            + "window.fetch = async (...sent) => { const answer = await real(...sent);"
            + " if (!lost && sent[1]?.method === 'POST') { lost = true; throw new TypeError(); }"
            + " return answer; };");
  }

  @Test
  void aShotIsPutWhereThePhoneStoodHoweverSoonTheWordOnTheSunIsSaid() {
    try (TestSite site = FieldSite.open(folder);
        Browser phone = phone(site)) {
      goToTheFirstSpot(phone);
      takeShot(phone, "2026:11:25 16:20:00");
      phone.click("[data-word='yes']");
      phone.await("#queue li", row -> row.getText().contains("waits to be sent"));

      phone.run("arriveFixes()");
      awaitAllSent(phone, 1);

      assertThat(spotsOfFieldShots(site)).containsExactly(1L);
      assertThat(
              site.ledger().read(session -> session.field().all()).stream().map(FieldEntry::said))
          .containsExactly(SunOnSubject.YES.label());
      assertThat(phone.complaints()).isEmpty();
    }
  }

  @Test
  void aShotKeepsItsPlaceWhenAnotherIsTakenBeforeItsWordIsSaid() {
    try (TestSite site = FieldSite.open(folder);
        Browser phone = phone(site)) {
      goToTheFirstSpot(phone);
      takeShot(phone, "2026:11:25 16:20:00");
      takeShot(phone, "2026:11:25 16:30:00");
      phone.run("arriveFixes()");
      phone.click("[data-word='yes']");
      phone.await("#queue .is-done");
      phone.await("#asking", part -> part.isDisplayed());
      phone.click("[data-word='no']");
      awaitAllSent(phone, 2);

      assertThat(spotsOfFieldShots(site)).containsExactly(1L, 1L);
    }
  }

  private static void setClock(Browser phone, Instant now) {
    phone.run("const now = arguments[0]; Date.now = () => now", now.toEpochMilli());
  }

  private static void awaitPressed(Browser phone, int item, boolean pressed) {
    phone.await("[data-item='%d'][aria-pressed='%s']".formatted(item, pressed));
  }

  private static void awaitAllSent(Browser phone, int entries) {
    phone.await(
        "#queue-said",
        part ->
            part.getText().equals("Nothing waits to be sent.")
                && phone.all("#queue .is-done").size() == entries);
  }

  @Test
  void aTickThatALaterWordOverrulesIsNotShown() {
    try (TestSite site = FieldSite.open(folder);
        Browser phone = phone(site)) {
      phone.go("/field");
      phone.await("#pack-said", part -> part.getText().equals("0 of 7 packed"));
      Instant onThePhone = site.clock().instant().plusSeconds(600);
      site.clock().advance(Duration.ofHours(1));
      site.post("/sessions/1/items/1/tick", "done", "yes");
      site.post("/sessions/1/items/1/tick", "done", "no");
      site.post("/sessions/1/items/2/tick", "done", "yes");
      site.clock().advance(Duration.ofHours(1));

      setClock(phone, onThePhone);
      phone.click("[data-item='1']");
      phone.click("[data-item='2']");
      phone.click("[data-item='3']");
      awaitAllSent(phone, 3);

      awaitPressed(phone, 1, false);
      awaitPressed(phone, 2, true);
      awaitPressed(phone, 3, true);
      assertThat(phone.find("#pack-said").getText()).isEqualTo("2 of 7 packed");
      assertThat(phone.find("#queue").getText()).contains("A later word counts");
    }
  }

  /** The phone's clock is days ahead of the ledger's, which stands at the session's day. */
  @Test
  void aTickThatWasSentDoesNotOverrideAPageThatIsNewer() {
    try (TestSite site = FieldSite.open(folder);
        Browser phone = phone(site)) {
      phone.go("/field");
      setClock(phone, site.clock().instant().plus(Duration.ofDays(6)));
      phone.click("[data-item='1']");
      phone.click("[data-item='2']");
      awaitAllSent(phone, 2);
      site.clock().advance(Duration.ofHours(1));
      site.post("/sessions/1/items/1/tick", "done", "no");
      site.clock().advance(Duration.ofHours(1));

      phone.go("/field");
      awaitAllSent(phone, 2);
      awaitPressed(phone, 1, false);
      awaitPressed(phone, 2, true);
    }
  }

  private Browser phone(TestSite site) {
    return Browser.open(Browser.Viewport.PHONE, site.address(), folder.resolve("profile"));
  }

  private static void goToTheFirstSpot(Browser phone) {
    phone.standAt(TestSite.PLACES[0][0], TestSite.PLACES[0][1]);
    phone.go("/field");
    holdTheFixBack(phone);
  }

  /** The receiver knows where it is, but says so only when the test lets it. */
  private static void holdTheFixBack(Browser phone) {
    phone.run(
        "const where = navigator.geolocation, ask = where.getCurrentPosition.bind(where);"
            + " const asked = []; let there = false;"
            + " where.getCurrentPosition ="
            + " (...question) => there ? ask(...question) : asked.push(question);"
            + " window.arriveFixes = () => {"
            + " there = true; asked.splice(0).forEach(one => ask(...one)); };");
  }

  /** Takes a picture that says no place. */
  private void takeShot(Browser phone, String local) {
    Path shots = folder.resolve("camera");
    String name = local.replaceAll("\\D", "") + ".jpg";
    TestSite.write(shots, name, TestPhotos.plain(local, null, null));
    phone.find("#shot-file").sendKeys(shots.resolve(name).toAbsolutePath().toString());
    phone.await("#asking", part -> part.isDisplayed() && part.getText().contains(name));
  }

  private static List<Long> spotsOfFieldShots(TestSite site) {
    return site.ledger()
        .read(
            session ->
                session.field().all().stream()
                    .map(entry -> session.shots().find(entry.shotId()).orElseThrow().spotId())
                    .toList());
  }

  @Test
  void theLightHereAndNowIsLookedUpAndTheCompassTurnsTheDrawing() {
    try (TestSite site = FieldSite.open(folder);
        Browser wide =
            Browser.open(
                Browser.Viewport.DESKTOP, site.address(), folder.resolve("wide-profile"))) {
      wide.go("/field");
      wide.await("#here-name", part -> !part.getText().isEmpty());
      wide.run(
          "const at = document.getElementById('here-at'); at.value = '16:30';"
              + "at.dispatchEvent(new Event('change'))");
      wide.await("#here-facings", part -> part.getText().contains("Backlit, looking SW 232°"));
      assertThat(wide.find("#here-time").getText()).isEqualTo("16:30, Wed, 25 Nov 2026");
      assertThat(wide.find("#here-sun").getText()).matches("SW 22\\d°, \\d+\\.\\d° high");
      assertThat(wide.find("#here-mind").getText())
          .contains("Railway tracks", "optical viewfinder");

      wide.click("#compass-on");
      turnTo(wide, 129, 0);
      wide.await(
          "#compass-said", part -> part.getText().matches("The phone points SW 2(29|30|31)° .*"));
      turnTo(wide, 129, 90);
      wide.await(
          "#compass-said", part -> part.getText().matches("The phone points SW 2(29|30|31)° .*"));
      assertThat(wide.find("#compass-said").getText())
          .contains("true; the compass is turned by", "The sun stands", "iron nearby turns it");
      wide.run(
          "const turned = new Event('deviceorientation');"
              + "Object.assign(turned, {webkitCompassHeading: 10, webkitCompassAccuracy: -1});"
              + "window.dispatchEvent(turned)");
      wide.await("#compass-said", part -> part.getText().contains("Not calibrated"));
      assertTargetsAreLarge(wide);
      wide.click("#theme");
      wide.await("html[data-theme='dark']");
      wide.look("field-dark");
      wide.click("#theme");
      wide.look("field");
      reachesEverythingByKeyboard(wide);
      assertThat(wide.complaints()).isEmpty();
    }
  }

  /** A phone that lies flat or stands upright, turned clockwise from magnetic north. */
  private static void turnTo(Browser browser, int alpha, int beta) {
    browser.run(
        "window.dispatchEvent(new DeviceOrientationEvent('deviceorientationabsolute',"
            + " {alpha: arguments[0], beta: arguments[1], gamma: 0, absolute: true}))",
        alpha,
        beta);
  }

  /** 44 CSS pixels, as for fingers (WCAG 2.2, 2.5.5). */
  private static void assertTargetsAreLarge(Browser browser) {
    Object small =
        browser.run(
            "return [...document.querySelectorAll('button, select, a, input, label.press')]"
                + ".filter(e => e.offsetParent && e.getBoundingClientRect().height < 44)"
                + ".map(e => e.outerHTML)");
    assertThat((List<?>) small).isEmpty();
  }

  private static void reachesEverythingByKeyboard(Browser browser) {
    browser.run("document.activeElement.blur(); window.scrollTo(0, 0)");
    Object expected =
        browser.run(
            "return [...document.querySelectorAll('a, button, select, input:not([type=hidden])')]"
                + ".filter(e => e.offsetParent && !e.disabled).length");
    java.util.Set<Object> met = new java.util.HashSet<>();
    for (int i = 0; i < 60; i++) {
      browser.press(Keys.TAB);
      met.add(
          browser.run(
              "const e = document.activeElement; return e === document.body ? 'body' :"
                  + " e.id || e.outerHTML"));
    }
    met.remove("body");
    assertThat((long) met.size()).isGreaterThanOrEqualTo((Long) expected);
  }
}

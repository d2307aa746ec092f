package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Shot;
import org.openqa.selenium.Keys;
import org.openqa.selenium.WebElement;

/** What a photographer does, done in a real browser on a desktop and on a phone. */
class BrowserTest {
  private static final String DECEMBER =
      "/?light=backlit&from=2026-12-01&to=2026-12-31&when=sun&minutes=60&side=before&event=sunset";

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder);
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
  void fromAFolderOfShotsToAShareOfTheShortlist(Browser.Viewport viewport) throws IOException {
    try (Browser browser = browser(viewport)) {
      browser.go("/");
      browser.look("ask-empty");
      browser.go("/import");
      browser.look("import-empty");
      browser.find("#f-files").sendKeys(paths(site.writePhotos()));
      browser.await("[data-tally=added]", tally -> tally.getText().equals("4"));
      browser.await("#progress-count", count -> count.getText().equals("4 of 4 pictures"));
      browser.look("import-report");

      browser.go(DECEMBER);
      browser.await(".pin-numbered");
      assertThat(browser.all(".answers > .cards .card")).isNotEmpty();
      assertThat(browser.all(".pin-numbered"))
          .hasSameSizeAs(browser.all(".answers > .cards .card"));
      assertThat(browser.find(".pin-numbered").getDomAttribute("aria-label")).startsWith("1: ");
      browser.look("ask");

      browser.click(".card .keep button");
      browser.await(".kept", kept -> kept.getText().contains("Shortlist of 25 Nov 2026"));
      browser.look("ask-kept");

      browser.click(".kept a");
      browser.await("#share");
      browser.find("textarea[name=words]").sendKeys("Wide grass, nobody about after four.");
      browser.click(".describe button");
      browser.await(".is-good");
      browser.click(".sharing button");
      browser.await(".linkline input");
      browser.look("shortlist");

      browser.click("[data-copy]");
      browser.await("[data-said]", said -> said.getText().equals("Copied"));
      String link = browser.find(".linkline input").getDomProperty("value");
      assertThat(browser.complaints()).isEmpty();

      browser.go(String.valueOf(link));
      assertThat(browser.find("main").getText())
          .contains("Wide grass, nobody about after four.", "The sun is behind you");
      assertThat(browser.run("return document.querySelector('.place img').naturalWidth"))
          .isEqualTo((long) TestPhotos.WIDTH);
      browser.look("share");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static String paths(Path photos) throws IOException {
    try (var files = Files.list(photos)) {
      return files.map(file -> file.toAbsolutePath().toString()).collect(Collectors.joining("\n"));
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void everyOtherPageFitsAndHasNoBarriers(Browser.Viewport viewport) {
    site.withPhotos();
    TestSite.write(
        folder.resolve("more"), "timeless.jpg", TestPhotos.shot(null, "", 41.95, -6.61, 232.0, 1));
    site.post("/import/folder", "folder", folder.resolve("more").toString());
    site.post("/shortlists", "title", "Autumn portraits for the Ferreira family");
    site.post(
        "/spots/1",
        "name",
        "Mill race, under the arches",
        "area",
        "Río Tera",
        "cautions",
        "Wet steps. The sluice opens at 19:00.");
    try (Browser browser = browser(viewport)) {
      browser.go("/import");
      browser.await("#job", job -> job.getText().contains("1 of 1 files"));
      browser.look("import-job");
      for (String page : List.of("spots", "shortlists", "light", "attention")) {
        browser.go("/" + page);
        browser.look(page);
      }
      browser.go("/spots/1");
      browser.await(".pin-spot");
      browser.look("spot");
      browser.go("/shortlists/1");
      browser.look("shortlist-empty");
      browser.go("/spots/2?did=placed");
      browser.look("spot-done");
      site.post("/spots/3/delete");
      browser.go("/spots?deleted=3");
      browser.look("spots-deleted");
      assertThat(browser.complaints()).isEmpty();
      browser.go("/nowhere");
      browser.look("error");
      browser.go("/?light=backlit&from=never&near=x");
      browser.look("ask-refused");
      browser.go("/s/unknown");
      browser.look("share-unknown");
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void shotsAreSplitOffAndJoinedBackByTheKeyboard(Browser.Viewport viewport) {
    site.withPhotos();
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1");
      browser.find("input[name=shots][value='2']").sendKeys(Keys.SPACE);
      browser.find(".regroup button").sendKeys(Keys.ENTER);
      browser.await(".done", done -> done.getText().contains("spot of their own"));
      assertThat(browser.all(".shot")).hasSize(1);
      browser.look("spot-split");

      browser.find(".done button").sendKeys(Keys.ENTER);
      browser.await(".done", done -> done.getText().contains("now part of this one"));
      assertThat(browser.all(".shot")).hasSize(2);
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theAnswersFollowTheQuestionWithoutLeavingThePage(Browser.Viewport viewport) {
    site.withPhotos();
    try (Browser browser = browser(viewport)) {
      browser.go("/?light=front&from=2026-12-01&to=2026-12-31&when=sun");
      browser.await(".none");
      browser.run("window.stayed = true");
      WebElement backlit = browser.find("input[value=backlit]");
      backlit.sendKeys(Keys.SPACE);
      browser.await(".answers > .cards .card");

      assertThat(browser.run("return window.stayed")).isEqualTo(true);
      assertThat(browser.path()).contains("light=backlit", "light=front", "from=2026-12-01");
      browser.await(
          "#asked", said -> said.getDomProperty("textContent").contains("backlit or front"));
      assertThat(browser.all(".pin-numbered"))
          .hasSameSizeAs(browser.all(".answers > .cards .card"));

      browser.go(DECEMBER + "&near=41.954,-6.61&within=0.1");
      browser.await(".map .within");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void listAndMapPointAtEachOther(Browser.Viewport viewport) {
    site.withPhotos();
    try (Browser browser = browser(viewport)) {
      browser.go(DECEMBER);
      browser.await(".card h3 a");
      browser.run("document.querySelector('.card h3 a').focus()");
      assertThat(browser.find(".card").getDomAttribute("class")).contains("is-marked");
      if (viewport == Browser.Viewport.PHONE) {
        browser.click("[data-show=map]");
        assertThat(browser.find(".card").isDisplayed()).isFalse();
      }
      browser.await(".pin-numbered", WebElement::isDisplayed);
      browser.run("document.querySelector('.card h3 a').blur()");
      browser.find(".pin-numbered").sendKeys(Keys.ENTER);

      assertThat(browser.find(".card").isDisplayed()).isTrue();
      assertThat(browser.run("return document.activeElement.closest('.card') !== null"))
          .isEqualTo(true);
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theKeyboardAloneOrdersAShortlist(Browser.Viewport viewport) {
    site.withPhotos();
    for (String spot : List.of("1", "2", "3")) {
      site.post("/shortlists/keep", "spot", spot, "list", spot.equals("1") ? "" : "1");
    }
    try (Browser browser = browser(viewport)) {
      browser.go("/shortlists/1");
      String last = browser.all(".entry h3").get(2).getText();
      browser.find(".entry:last-child .step:not([disabled])").sendKeys(Keys.ENTER);
      browser.await(".entry:nth-child(2) h3", name -> name.getText().equals(last));

      browser.go("/");
      browser.find("body").sendKeys(Keys.TAB);
      assertThat(browser.run("return document.activeElement.className")).isEqualTo("skip");
      browser.look("ask-skip-link");
      browser.run("return document.activeElement.click()");
      assertThat(browser.run("return document.activeElement.id")).isEqualTo("content");
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void aClickOnTheCompassGivesTheBearingOfANewFacing(Browser.Viewport viewport) {
    site.withPhotos();
    try (Browser browser = browser(viewport)) {
      browser.go("/spots/1");
      browser.run(
          "const box = document.querySelector('.turning svg').getBoundingClientRect();"
              + "document.querySelector('.turning').dispatchEvent(new MouseEvent('click', {bubbles:"
              + " true, clientX: box.left + box.width * 0.9, clientY: box.top + box.height / 2}));");
      int bearingDeg =
          Integer.parseInt(String.valueOf(browser.find("#f-bearing").getDomProperty("value")));
      assertThat(bearingDeg).as("a click in the east, to the pixel").isBetween(88, 92);
      browser.click(".addfacing button");
      browser.await(".facingrows", rows -> rows.getText().contains("set by you"));
      browser.click(".facingrows button");
      browser.await(".facingrows", rows -> !rows.getText().contains("set by you"));
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void droppedPicturesAreImported(Browser.Viewport viewport) throws IOException {
    Path photos = site.writePhotos();
    try (Browser browser = browser(viewport)) {
      browser.go("/import");
      browser.run(
          "const bytes = Uint8Array.from(atob(arguments[0]), c => c.charCodeAt(0));"
              + "const transfer = new DataTransfer();"
              + "transfer.items.add(new File([bytes], 'dropped.jpg', {type: 'image/jpeg'}));"
              + "transfer.items.add(new File(['text'], 'broken.jpg', {type: 'image/jpeg'}));"
              + "document.getElementById('drop').dispatchEvent(new DragEvent('drop',"
              + " {dataTransfer: transfer, bubbles: true, cancelable: true}));",
          Base64.getEncoder().encodeToString(Files.readAllBytes(photos.resolve("1-mill-a.jpg"))));
      browser.await("[data-tally=added]", tally -> tally.getText().equals("1"));
      browser.await("[data-tally=unreadable]", tally -> tally.getText().equals("1"));
      assertThat(browser.find(".filerows").getText()).contains("dropped.jpg", "broken.jpg");
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void hostileNamesStayText(Browser.Viewport viewport) {
    site.withPhotos();
    String hostile = HostileTextTest.HOSTILE;
    site.post("/spots/1", "name", hostile, "area", hostile, "cautions", hostile);
    site.post("/shortlists", "title", hostile);
    site.post("/shortlists/1", "title", hostile, "message", hostile);
    site.post("/shortlists/keep", "spot", "1", "list", "1", "cover", "1");
    try (Browser browser = browser(viewport)) {
      for (String page :
          List.of(
              DECEMBER,
              "/spots",
              "/spots/1",
              "/shortlists",
              "/shortlists/1",
              "/shortlists/1/preview")) {
        browser.go(page);
        browser.run("document.querySelector('[data-show=map]')?.click()");
        assertThat(browser.run("return document.querySelectorAll('probe-x, [onload]').length"))
            .as(page)
            .isEqualTo(0L);
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theFileOpensFromTheDiskAlone(Browser.Viewport viewport) throws IOException {
    site.withPhotos();
    site.post("/shortlists/keep", "spot", "1", "list", "", "cover", "1");
    Path file = folder.resolve("shortlist.html");
    Files.write(file, site.get("/shortlists/1/file").body());
    try (Browser browser = browser(viewport)) {
      site.close();
      browser.go(file.toUri().toString());
      assertThat(browser.run("return document.querySelector('.place img').naturalWidth"))
          .isEqualTo((long) TestPhotos.WIDTH);
      browser.look("share-file");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void anAmbiguousTimeIsSettledInTheTrayAndTakenBack(Browser.Viewport viewport) {
    site.withPhotos().importFrom(waiting());
    try (Browser browser = browser(viewport)) {
      browser.go("/attention");
      browser.await("#group-choice");
      browser.look("tray");
      browser.click("#group-choice input[name=all]");
      assertThat(browser.all("#group-choice input[name=shot]:checked")).hasSize(2);
      browser.click("#group-choice button[value=choice]");
      browser.await("#tray > .note", note -> note.getText().contains("expected one of the times"));
      browser.look("tray-refused");

      browser.click("#group-choice input[value='+01:00']");
      browser.click("#group-choice button[value=choice]");
      browser.await("#fixed", said -> said.getText().contains("2 shots fixed"));
      assertThat(browser.all("#group-choice")).isEmpty();
      assertThat(browser.run("return document.activeElement.id")).isEqualTo("fixed");
      browser.await("#waiting-count", count -> count.getText().startsWith("2"));
      browser.look("tray-fixed");

      browser.click("#fixed button");
      browser.await("#fixed", said -> said.getText().contains("Undone"));
      assertThat(browser.all("#group-choice input[name=shot]")).hasSize(2);
      assertThat(browser.complaints())
          .allMatch(complaint -> complaint.contains("422"), "the refused form alone");
    }
  }

  private Path waiting() {
    Path more = folder.resolve("waiting");
    for (int i = 0; i < 2; i++) {
      TestSite.write(
          more,
          "night-" + i + ".jpg",
          TestPhotos.plain("2026:10:25 02:3" + i + ":00", 41.95, -6.61));
      TestSite.write(
          more,
          "evening-" + i + ".jpg",
          TestPhotos.plain("2026:11:20 17:0" + i + ":00", null, null));
    }
    return more;
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void aClickOnTheMapPlacesAShot(Browser.Viewport viewport) {
    Path more = waiting();
    site.withPhotos().importFrom(more);
    long id = site.shotOf(more.resolve("evening-0.jpg"));
    try (Browser browser = browser(viewport)) {
      browser.go("/attention");
      browser.click("#group-both input[name=shot][value='" + id + "']");
      browser.click("#group-both details:has(.map) > summary");
      browser.await("#group-both .pin-spot", WebElement::isDisplayed);
      browser.tap("#group-both .map", 0.5, 0.6);
      browser.await("#group-both .picked");
      String picked = String.valueOf(browser.find("#f-both-place").getDomProperty("value"));
      browser.look("tray-picked");
      browser.click("#group-both button[value=point]");
      browser.await("#fixed", said -> said.getText().contains("1 shot fixed"));

      Shot.Position position =
          Objects.requireNonNull(
              site.ledger()
                  .read(session -> session.shots().find(id).orElseThrow())
                  .shot()
                  .position());
      assertThat(position.point()).isEqualTo(GeoPoint.parse(picked));
      assertThat(Geodesy.distanceM(position.point(), new GeoPoint(41.952, -6.607)))
          .as("a click near the middle of the map, among the spots, metres")
          .isLessThan(1000);
      assertThat(browser.complaints()).isEmpty();
    }
  }

  /**
   * truth.csv: outing-2025-11-15/LN2_0420.jpg looks 240.00, the sun at 418.9, 224.4 of 960, 640.
   */
  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void aTapOnTheSunInAPhotoTellsItsFacing(Browser.Viewport viewport) throws IOException {
    Path photo = Path.of("sample-photos", "outing-2025-11-15", "LN2_0420.jpg");
    String truth =
        Files.readAllLines(Path.of("sample-photos", "truth.csv")).stream()
            .filter(line -> line.startsWith("outing-2025-11-15/LN2_0420.jpg,"))
            .findFirst()
            .orElseThrow();
    String[] columns = truth.split(",", -1);
    double facingDeg = Double.parseDouble(columns[7]);
    double sunX = Double.parseDouble(columns[13]);
    double sunY = Double.parseDouble(columns[14]);
    site.importFrom(photo.getParent());
    long id = site.shotOf(photo);
    try (Browser browser = browser(viewport)) {
      browser.go("/shots/" + id);
      browser.await(".map .wedge");
      browser.look("shot");
      browser.tap("[data-tap] img", sunX / 960, sunY / 640);
      browser.await("#sighted", said -> said.getText().contains("Looks"));
      browser.await(".tapmark", WebElement::isDisplayed);
      browser.look("shot-tapped");
      browser.click("#sighted button");
      browser.await("#fixed", said -> said.getText().contains("1 shot fixed"));

      Shot shot = site.ledger().read(session -> session.shots().find(id).orElseThrow()).shot();
      Shot.Facing facing = Objects.requireNonNull(shot.facing());
      assertThat(facing.source()).isEqualTo(Shot.FacingSource.SUN_IN_PICTURE);
      assertThat(Math.abs(facing.bearing().turnToDeg(Bearing.of(facingDeg))))
          .as("degrees off the truth")
          .isLessThan(0.5);
      browser.look("shot-fixed");

      browser.run("document.querySelector('input[name=tap][value=shadow]').click()");
      assertThat(browser.find("#f-atx").isDisplayed()).isFalse();
      for (String[] typed :
          new String[][] {{"footx", "400"}, {"footy", "500"}, {"tipx", "380"}, {"tipy", "600"}}) {
        browser.find("#f-" + typed[0]).sendKeys(typed[1]);
      }
      browser.find("#f-tipy").sendKeys(Keys.ENTER);
      browser.await("#sighted", said -> said.getText().contains("Looks"));
      browser.look("shot-shadow");

      browser.run("document.querySelector('button[value=bearing]').closest('details').open = true");
      browser.click("[data-pick=f-shot-bearing]");
      browser.tap(".map", 0.7, 0.2);
      browser.await(".map .picked");
      double clickedDeg =
          Double.parseDouble(
              String.valueOf(browser.find("#f-shot-bearing").getDomProperty("value")));
      assertThat(clickedDeg).as("a click in the north-east").isBetween(1.0, 89.0);
      browser.look("shot-aimed");
      assertThat(browser.complaints()).isEmpty();
    }
  }
}

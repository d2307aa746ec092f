package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Placement;
import org.lightledger.shot.Shot;
import org.lightledger.shot.track.TrackLimits;
import org.lightledger.shot.track.TrackPlaces;
import org.lightledger.shot.track.Tracks;
import org.lightledger.testing.Reference;
import org.openqa.selenium.Keys;
import org.openqa.selenium.support.ui.Select;

/**
 * A folder of a camera without GPS whose clock is an hour ahead, and the log of the walk: brought
 * in and put right in the page alone. The walk is a real one; where it was at each moment is told
 * by an independent program.
 */
class WrongClockInTheTrayTest {
  private static final String WALK = "korita-zbevnica";
  private static final String LOG = "tracks/gpxpy-korita-zbevnica.gpx";

  /** The walk leads along the border of Slovenia, Croatia and Italy, which keep one time. */
  private static final ZoneOffset SUMMER = ZoneOffset.ofHours(2);

  private static final int SHOTS = 24;
  private static final double WITHIN_M = 5;
  private static final Duration WITHIN = Duration.ofSeconds(1);
  private static final DateTimeFormatter EXIF =
      DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT);

  @TempDir Path folder;
  private final Map<Path, Truth> truth = new HashMap<>();
  private TestSite site;

  /** When and where a shot was taken. */
  private record Truth(Instant instant, GeoPoint place) {}

  @BeforeEach
  void open() throws IOException {
    site = new TestSite(folder);
    Path photos = folder.resolve("camera");
    for (Map<String, String> row : between()) {
      Instant instant = Instant.parse(row.get("photo_utc"));
      String name = "dsc" + (1000 + truth.size()) + ".jpg";
      String wrong = EXIF.format(instant.atOffset(SUMMER).plusHours(1));
      TestSite.write(photos, name, TestPhotos.plain(wrong, null, null));
      truth.put(
          photos.resolve(name),
          new Truth(
              instant,
              new GeoPoint(
                  Double.parseDouble(row.get("lat")), Double.parseDouble(row.get("lon")))));
    }
    assertThat(truth).hasSize(SHOTS);
  }

  /** The moments that lie between two fixes of the log near enough to be bridged. */
  private static List<Map<String, String>> between() {
    TrackPlaces places = new TrackPlaces(List.of(Tracks.ofTable(WALK)), TrackLimits.standard());
    return Tracks.table("geotag-expected").stream()
        .filter(row -> WALK.equals(row.get("track")))
        .filter(
            row ->
                places.at(Instant.parse(row.get("photo_utc"))) instanceof Placement.Placed placed
                    && placed.basis() instanceof Placement.Between)
        .toList();
  }

  @AfterEach
  void close() {
    site.close();
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void aCorrectionOfTheClockGoesWithTheTrackLog(Browser.Viewport viewport) throws IOException {
    try (Browser browser = inTheTray(viewport)) {
      browser.find("#f-both-trackclock").sendKeys("-1:00:00");

      placeAndUndo(browser);
    }
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void oneShotWhoseTrueTimeIsKnownGoesWithTheTrackLog(Browser.Viewport viewport)
      throws IOException {
    Path one = folder.resolve("camera").resolve("dsc1010.jpg");
    try (Browser browser = inTheTray(viewport)) {
      new Select(browser.find("#f-both-trackof")).selectByValue(String.valueOf(site.shotOf(one)));
      String reading = browser.find("#f-both-tracktruth").getDomProperty("value");
      assertThat(Objects.requireNonNull(reading))
          .as("the camera's reading is filled in, an hour ahead")
          .startsWith(local(truth.get(one).instant().plusSeconds(3600)));
      browser.run(
          "arguments[0].value = arguments[1]",
          browser.find("#f-both-tracktruth"),
          local(truth.get(one).instant()));

      placeAndUndo(browser);
    }
  }

  /** Imports the folder, opens the tray from the report, ticks all of it and chooses the log. */
  private Browser inTheTray(Browser.Viewport viewport) throws IOException {
    Browser browser = Browser.open(viewport, site.address(), folder.resolve("profile"));
    browser.go("/import");
    browser.find("#f-folder").sendKeys(folder.resolve("camera").toString(), Keys.ENTER);
    browser.await("#job [data-tally=attention]", tally -> tally.getText().equals("" + SHOTS));
    browser.await("#waiting-count", count -> count.getDomProperty("textContent").startsWith("24"));
    assertThat(browser.all("#job .filerows > li")).as("one reason, told once").hasSize(1);
    browser.click("#job [data-settle] a");
    browser.await("#group-both");
    browser.click("#group-both input[name=all]");
    browser.find("#f-both-track").sendKeys(Reference.path(LOG).toRealPath().toString());
    browser.click("#group-both .wrongclock summary");
    return browser;
  }

  private void placeAndUndo(Browser browser) {
    browser.click("#group-both button[value=track]");
    browser.await("#fixed", said -> said.getText().contains(SHOTS + " shots fixed"));
    assertThat(browser.find("#fixed").getText())
        .contains("Camera's clock corrected by -1:00:00, placed by a track log", "Now at ");
    assertThat(browser.all("#group-both")).isEmpty();
    assertEveryShotIsRight();
    browser.look("tray-tracked");

    browser.find("#fixed button").sendKeys(Keys.ENTER);
    browser.await("#fixed", said -> said.getText().contains("Undone"));
    for (Path file : truth.keySet()) {
      assertThat(shot(file).position()).isNull();
      assertThat(shot(file).time()).isInstanceOf(CaptureTime.Unknown.class);
    }
    assertThat(browser.complaints()).isEmpty();
  }

  private void assertEveryShotIsRight() {
    truth.forEach(
        (file, expected) -> {
          Shot shot = shot(file);
          Shot.Position position = Objects.requireNonNull(shot.position());
          assertThat(Geodesy.distanceM(position.point(), expected.place()))
              .as("metres from the truth, " + file.getFileName())
              .isLessThan(WITHIN_M);
          assertThat(shot.time()).isInstanceOf(CaptureTime.Known.class);
          assertThat(
                  Duration.between(((CaptureTime.Known) shot.time()).instant(), expected.instant())
                      .abs())
              .isLessThanOrEqualTo(WITHIN);
          assertThat(shot.needsAttention()).isFalse();
        });
  }

  private Shot shot(Path file) {
    long id = site.shotOf(file);
    return site.ledger().read(session -> session.shots().find(id).orElseThrow()).shot();
  }

  private static String local(Instant instant) {
    return DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss", Locale.ROOT)
        .format(instant.atOffset(SUMMER));
  }
}

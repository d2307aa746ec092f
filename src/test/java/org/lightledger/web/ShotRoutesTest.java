package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.Bearing;
import org.lightledger.session.Candidate;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.CameraView;
import org.lightledger.shot.view.PinholeCamera;
import org.lightledger.shot.view.Pixel;
import org.lightledger.store.SessionSamples;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;

class ShotRoutesTest {
  @TempDir Path folder;
  private TestSite site;
  private long id;
  private Bearing truth;
  private String tap;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
    Path more = folder.resolve("more");
    TestSite.write(more, "low-sun.jpg", TestPhotos.plain("2026:11:20 17:00:00", 41.95, -6.61));
    id = site.importFrom(more).shotOf(more.resolve("low-sun.jpg"));
    SunDirection sun = Objects.requireNonNull(shot().sun());
    truth = Bearing.of(sun.azimuth().trueDeg() + 9);
    PinholeCamera camera = PinholeCamera.of(shot().shot().evidence()).orElseThrow();
    Pixel disc =
        new CameraView(camera, truth, 2)
            .pixelOf(sun.azimuth(), sun.apparentAltitudeDeg())
            .orElseThrow();
    tap = String.format(Locale.ROOT, "tap=sun&atx=%.2f&aty=%.2f", disc.x(), disc.y());
  }

  @AfterEach
  void close() {
    site.close();
  }

  private StoredShot shot() {
    return site.ledger().read(session -> session.shots().find(id).orElseThrow());
  }

  private String field(String name) {
    for (String pair : tap.split("&", -1)) {
      if (pair.startsWith(name + "=")) {
        return pair.substring(name.length() + 1);
      }
    }
    throw new IllegalArgumentException(name);
  }

  @Test
  void thePageShowsEvidenceBesideConclusion() {
    assertThat(site.get("/shots/" + id).text())
        .contains(
            "low-sun.jpg",
            "Fri 20 Nov 2026, 17:00 UTC+01:00",
            "by the camera's clock, in the zone of the place",
            "The file: 2026-11-20 17:00, no offset",
            "by the file's GPS position",
            "Direction",
            "says nothing",
            "EV100",
            "1/250 s, f/2.8, ISO 100",
            "data-width=\"640\" data-height=\"480\"",
            "href=\"/spots/1#shot-" + id + "\"");
    assertThat(site.get("/spots/1").text()).contains("href=\"/shots/" + id + "\"");
  }

  @Test
  void theContrastIsToldFromThePicture() {
    assertThat(site.get("/shots/" + id).text()).contains("/shots/" + id + "/contrast");
    assertThat(site.get("/shots/" + id + "/contrast").text())
        .containsPattern("(about|at least) \\d+\\.\\d stops")
        .contains("an approximation");
    assertThat(site.get("/shots/999/contrast").status()).isEqualTo(404);
  }

  @Test
  void aTappedSunShowsTheDirectionAndKeepsItAfterTheOwnersWord() {
    String found = site.get("/shots/" + id + "/facing?" + tap).text();
    assertThat(found)
        .contains(
            String.format(Locale.ROOT, "Looks %s %.1f°", truth.compassPoint(), truth.trueDeg()),
            "Keep this direction",
            "±")
        .doesNotContain("<html");
    assertThat(shot().shot().facing()).as("nothing is kept before the owner says so").isNull();
    assertThat(site.get("/shots/" + id + "?" + tap).text())
        .as("without script")
        .contains("Keep this direction", "value=\"" + field("atx") + "\"", "<html");

    String kept =
        site.post(
                "/shots/" + id,
                "fix",
                "tap",
                "tap",
                "sun",
                "atx",
                field("atx"),
                "aty",
                field("aty"))
            .text();

    assertThat(kept).contains("1 shot fixed", "by the sun, tapped in the picture");
    Shot.Facing facing = Objects.requireNonNull(shot().shot().facing());
    assertThat(facing.source()).isEqualTo(Shot.FacingSource.SUN_IN_PICTURE);
    assertThat(Math.abs(facing.bearing().turnToDeg(truth)))
        .as("a hundredth of a pixel is 0.001 degrees")
        .isLessThan(0.01);
    assertThat(kept)
        .contains("data-facings=\"" + ShotViews.wedge(facing.bearing(), shot().shot().evidence()));
    assertThat(site.post("/corrections/1/undo", "shot", String.valueOf(id)).status())
        .isEqualTo(303);
    assertThat(shot().shot().facing()).isNull();
  }

  @Test
  void theOnlyShotOfASessionsSpotIsCorrectedAndThatIsUndone() {
    site.ledger()
        .change(
            session -> {
              long client = session.clients().add(SessionSamples.adult());
              long booked = session.sessions().add(SessionSamples.session(client));
              session
                  .candidates()
                  .put(booked, new Candidate(3, Candidate.Choice.FREE, Set.of(), null, null));
            });

    TestSite.Answer fixed =
        site.post("/shots/4", "fix", "point", "shot-place", "42.5,-6.0", "zone", "", "time", "");
    assertThat(fixed.text()).contains("1 shot fixed");
    assertThat(site.post("/corrections/1/undo", "shot", "4").status()).isEqualTo(303);
    assertThat(site.get("/spots/3").status()).isEqualTo(200);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "tap=moon&atx=1&aty=1",
        "tap=sun",
        "tap=sun&atx=1",
        "tap=sun&atx=NaN&aty=3",
        "tap=sun&atx=1e400&aty=3",
        "tap=shadow&footx=1&footy=2&tipx=3",
        "tap=shadow&footx=1&footy=2&tipx=3&tipy=4&horizonx=5"
      })
  void aBadTapIsNamed(String query) {
    assertThat(site.get("/shots/" + id + "/facing?" + query, "HX-Request", "true"))
        .satisfies(
            answer -> {
              assertThat(answer.status()).isEqualTo(422);
              assertThat(answer.text()).contains("expected").doesNotContain("<html");
            });
    TestSite.Answer page = site.get("/shots/" + id + "?" + query);
    assertThat(page.status()).isEqualTo(422);
    assertThat(page.text()).contains("expected").doesNotContain("Keep this direction");
  }

  @Test
  void aTapThatTellsNothingSaysWhy() {
    assertThat(site.get("/shots/" + id + "/facing?tap=sun&atx=5000&aty=3").text())
        .contains("outside the picture")
        .doesNotContain("Keep this direction");
    assertThat(site.get("/shots/" + id + "/facing?tap=shadow&footx=9&footy=9&tipx=9&tipy=9").text())
        .contains("two places below the horizon");
  }

  @Test
  void oneShotIsCorrectedOnItsOwnPage() {
    String corrected = site.post("/shots/" + id, "fix", "clock", "shot-clock", "-0:30:00").text();
    assertThat(corrected)
        .contains("1 shot fixed", "16:30 UTC+01:00", "clock corrected by -0:30:00");

    TestSite.Answer refused = site.post("/shots/" + id, "fix", "zone", "shot-zone", "Atlantis");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains("href=\"#f-shot-zone\"", "value=\"Atlantis\"");
  }

  @Test
  void whatIsNotThereIsNotFoundAndTextStaysText() {
    String hostile = URLEncoder.encode(HostileTextTest.HOSTILE, StandardCharsets.UTF_8);
    assertThat(site.get("/shots/99").status()).isEqualTo(404);
    assertThat(site.get("/shots/x").status()).isEqualTo(404);
    assertThat(site.get("/shots/99/facing?" + tap).status()).isEqualTo(404);
    assertThat(site.post("/shots/99", "fix", "bearing", "shot-bearing", "5").status())
        .isEqualTo(404);
    assertThat(site.get("/shots/" + id + "?tap=" + hostile + "&atx=" + hostile).text())
        .doesNotContain("<probe-x", "\"'>");
  }
}

package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.MapAdding;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.testing.Reference;

/** Places on a real region's map, in a real browser. */
class MapBrowserTest {
  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() throws IOException {
    site = new TestSite(folder);
    new MapAdding(site.ledger(), site.clock()).add(Reference.path("extract/monaco.osm.gz"));
    site.ledger()
        .change(
            session -> {
              session.spots().insert(spot("Casino terraces", 43.7388, 7.4290, 150));
              session.spots().insert(spot("Palace square", 43.7312, 7.4208, 260));
              session.spots().insert(spot("Harbour wall", 43.7333, 7.4290, 300));
            });
  }

  @AfterEach
  void close() {
    site.close();
  }

  private static Spot spot(String name, double latitudeDeg, double longitudeDeg, double bearing) {
    return new Spot(
        0,
        name,
        null,
        new GeoPoint(latitudeDeg, longitudeDeg),
        java.time.ZoneId.of("Europe/Monaco"),
        false,
        List.of(new Facing(new Bearing(bearing), 20, Facing.Origin.OWNER, 0)),
        "",
        "");
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void theMapLiesUnderTheSpotsWithItsSourceNamed(Browser.Viewport viewport) {
    try (Browser browser =
        Browser.open(viewport, site.address(), folder.resolve("profile" + viewport))) {
      browser.go("/spots");
      if (viewport == Browser.Viewport.PHONE) {
        browser.click("[data-show=map]");
      }
      awaitTiles(browser, "light");
      assertThat(browser.find(".leaflet-control-attribution").getText())
          .contains("Map data © OpenStreetMap contributors, ODbL");
      assertThat(browser.all(".graticule")).isEmpty();
      browser.screenshot("spots-map-" + viewport + "-light");
      browser.scheme("dark");
      awaitTiles(browser, "dark");
      browser.look("spots-map");
      browser.scheme("dark");
      awaitTiles(browser, "dark");
      browser.screenshot("spots-map-" + viewport + "-dark");
      browser.scheme("light");

      browser.go("/spots/1");
      browser.await(".pin-spot");
      awaitTiles(browser, "light");
      browser.screenshot("spot-map-" + viewport + "-light");
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static void awaitTiles(Browser browser, String look) {
    browser.await(
        ".leaflet-tile-loaded",
        tile -> String.valueOf(tile.getDomProperty("src")).contains("look=" + look));
    browser.await(
        "body",
        body ->
            Boolean.TRUE.equals(
                browser.run(
                    "const t=[...document.querySelectorAll('.leaflet-tile')];"
                        + "return t.length>0&&t.every(i=>i.complete&&i.src.includes('look="
                        + look
                        + "')"
                        + "&&getComputedStyle(i).opacity==='1')")));
  }
}

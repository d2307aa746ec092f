package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.map.WebMercator;
import org.lightledger.map.picture.MapLook;
import org.lightledger.store.MapSamples;

class MapRoutesTest {
  private static final int ZOOM = 16;

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

  private void addMap() {
    site.ledger().change(session -> MapSamples.add(session, 1));
  }

  /** The tile of the sample's village. */
  private static String tile(String ending) {
    double world = Math.pow(2, ZOOM);
    return "/map/%d/%d/%d%s"
        .formatted(
            ZOOM,
            (int) (WebMercator.x(-6.61) * world),
            (int) (WebMercator.y(41.95) * world),
            ending);
  }

  private static BufferedImage picture(TestSite.Answer answer) throws IOException {
    assertThat(answer.status()).isEqualTo(200);
    assertThat(answer.header("Content-Type")).isEqualTo("image/png");
    return ImageIO.read(new ByteArrayInputStream(answer.body()));
  }

  @Test
  void aTileIsDrawnFromTheMapInBothLooksAndDensities() throws IOException {
    addMap();
    BufferedImage light = picture(site.get(tile(".png")));
    BufferedImage dark = picture(site.get(tile(".png?look=dark")));
    BufferedImage dense = picture(site.get(tile("@2x.png")));

    assertThat(light.getWidth()).isEqualTo(256);
    assertThat(light.getHeight()).isEqualTo(256);
    assertThat(dense.getWidth()).isEqualTo(512);
    assertThat(light.getRGB(5, 5)).isNotEqualTo(dark.getRGB(5, 5));
    int[] pixels = light.getRGB(0, 0, 256, 256, null, 0, 256);
    assertThat(Arrays.stream(pixels).distinct().count())
        .as("houses and a street, not land alone")
        .isGreaterThan(10);
  }

  @Test
  void aBrowserKeepsATileUntilTheMapChanges() {
    addMap();
    String address = tile(".png?v=" + version());
    TestSite.Answer first = site.get(address);
    assertThat(first.header("Cache-Control")).isEqualTo("private, max-age=31536000, immutable");
    String tag = first.header("ETag");
    assertThat(site.get(address, "If-None-Match", tag).status()).isEqualTo(304);
    assertThat(site.get(tile(".png")).header("Cache-Control")).isEqualTo("private, no-cache");

    site.ledger()
        .change(
            session ->
                session
                    .obstructions()
                    .addByOwner(
                        MapSamples.house(
                            "Barn", new org.lightledger.geo.GeoPoint(41.9504, -6.6105), 8)));

    TestSite.Answer changed = site.get(address, "If-None-Match", tag);
    assertThat(changed.status()).isEqualTo(200);
    assertThat(changed.header("ETag")).isNotEqualTo(tag);
    assertThat(changed.header("Cache-Control")).isEqualTo("private, no-cache");
    assertThat(changed.body()).isNotEqualTo(first.body());
  }

  private long version() {
    return site.ledger().read(session -> session.maps().version());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/map/9/1/1.png",
        "/map/20/1/1.png",
        "/map/10/1024/1.png",
        "/map/10/1/1024.png",
        "/map/10/-1/1.png",
        "/map/10/1/1.jpg",
        "/map/10/1/1@3x.png",
        "/map/ten/1/1.png",
        "/map/10/99999999999/1.png"
      })
  void thereAreNoOtherTiles(String address) {
    addMap();
    assertThat(site.get(address).status()).isEqualTo(404);
  }

  @Test
  void clientsHaveNoMap() {
    addMap();
    assertThat(site.getAt("http://localhost:" + site.sharePort() + tile(".png")).status())
        .isEqualTo(404);
  }

  @Test
  void aPageKnowsTheMapWhenThereIsOne() {
    assertThat(site.get("/spots").text()).doesNotContain("data-tiles");
    addMap();
    assertThat(site.get("/spots").text())
        .contains("data-tiles=\"/map/{z}/{x}/{y}{r}.png?v=" + version() + "\"")
        .contains("data-covered=\"41.9400000,-6.6200000,41.9600000,-6.6000000\"")
        .contains("data-licence=\"ODbL\"");
  }

  @Test
  void noMoreTilesAreKeptThanThereIsRoomFor() {
    addMap();
    MapTiles tiles = new MapTiles(site.ledger(), 20_000);
    byte[] first = null;
    for (int x = 0; x < 64; x++) {
      byte[] png = tiles.png(new MapTiles.Tile(1, 10, 490 + x, 381, MapLook.LIGHT, 1));
      first = first == null ? png : first;
      assertThat(tiles.keptBytes()).isLessThanOrEqualTo(20_000);
    }
    assertThat(tiles.png(new MapTiles.Tile(1, 10, 490, 381, MapLook.LIGHT, 1))).isEqualTo(first);
  }
}

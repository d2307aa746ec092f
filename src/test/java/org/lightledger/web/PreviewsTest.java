package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PreviewsTest {
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

  private static BufferedImage image(TestSite.Answer answer) throws IOException {
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(answer.body()));
    assertThat(image).isNotNull();
    return image;
  }

  /** The test photo is dark at its stored left and light at its stored right. */
  @ParameterizedTest(name = "orientation {0}: dark {1}")
  @CsvSource({
    "1, left",
    "2, right",
    "3, right",
    "4, left",
    "5, top",
    "6, top",
    "7, bottom",
    "8, bottom"
  })
  void everyOrientationIsTurnedUpright(int orientation, String darkSide) throws IOException {
    site.upload(
        Map.of(
            "a.jpg",
            TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, orientation)));
    BufferedImage upright = image(site.get("/shots/1/preview?w=240"));
    boolean sideways = darkSide.equals("top") || darkSide.equals("bottom");

    assertThat(upright.getWidth()).isEqualTo(240);
    assertThat(upright.getHeight()).isEqualTo(sideways ? 320 : 180);
    int w = upright.getWidth();
    int h = upright.getHeight();
    int dark =
        switch (darkSide) {
          case "left" -> upright.getRGB(8, h / 8);
          case "right" -> upright.getRGB(w - 8, h / 8);
          case "top" -> upright.getRGB(w / 8, 8);
          default -> upright.getRGB(w / 8, h - 8);
        };
    assertThat(dark & 0xff).isLessThan(0x50);
  }

  @Test
  void noMetadataComesAlong() {
    site.upload(
        Map.of("a.jpg", TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1)));
    TestSite.Answer answer = site.get("/shots/1/preview?w=960");

    assertThat(new String(answer.body(), StandardCharsets.ISO_8859_1))
        .doesNotContain("Exif")
        .doesNotContain("2026:11:20");
    assertThat(answer.header("Content-Type")).isEqualTo("image/jpeg");
  }

  @Test
  void aSmallPictureIsNotEnlarged() throws IOException {
    site.upload(
        Map.of("a.jpg", TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1)));

    assertThat(image(site.get("/shots/1/preview?w=1600")).getWidth()).isEqualTo(TestPhotos.WIDTH);
  }

  @ParameterizedTest
  @ValueSource(strings = {"?w=481", "?w=1000000", "?w=-1", "?w=", ""})
  void onlyKnownWidthsAreMade(String query) {
    site.upload(
        Map.of("a.jpg", TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1)));

    assertThat(site.get("/shots/1/preview" + query).status()).isEqualTo(404);
    assertThat(site.filesIn("previews")).isEmpty();
  }

  @Test
  void aPreviewOutlivesItsOriginalAndAPlainCardStandsForOneNeverMade() throws IOException {
    site.withPhotos();
    site.get("/shots/1/preview?w=240");
    try (var files = Files.list(folder.resolve("photos"))) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }

    assertThat(site.get("/shots/1/preview?w=240").header("Content-Type")).isEqualTo("image/jpeg");
    TestSite.Answer card = site.get("/shots/1/preview?w=480");
    assertThat(card.header("Content-Type")).isEqualTo("image/svg+xml");
    assertThat(card.text()).contains("no picture to show");
  }

  /** The header alone claims 3.6 thousand million pixels; decoding it would fill the memory. */
  @Test
  void absurdDimensionsAreRefusedBeforeDecoding() throws IOException {
    Path bomb = folder.resolve("bomb.png");
    Files.write(bomb, pngHeader(60_000, 60_000));
    assertThat(ImageIO.getImageReadersBySuffix("png").hasNext()).isTrue();

    assertThat(PreviewMaker.make(bomb, 1, 480)).isEmpty();
  }

  private static byte[] pngHeader(int width, int height) {
    byte[] ihdr =
        ByteBuffer.allocate(17)
            .put("IHDR".getBytes(StandardCharsets.US_ASCII))
            .putInt(width)
            .putInt(height)
            .put(new byte[] {8, 2, 0, 0, 0})
            .array();
    CRC32 crc = new CRC32();
    crc.update(ihdr);
    return ByteBuffer.allocate(33)
        .put(new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10})
        .putInt(13)
        .put(ihdr)
        .putInt((int) crc.getValue())
        .array();
  }
}

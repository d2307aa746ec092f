package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.File;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;
import org.lightledger.testing.Reference;

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

  @Test
  void anUploadedPictureIsFoundInALedgerFolderThatWasMoved() throws IOException {
    site.upload(
        Map.of("a.jpg", TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1)));
    site.close();
    Path moved = Files.createDirectory(folder.resolve("moved"));
    Files.move(folder.resolve("ledger"), moved.resolve("ledger"));
    site = new TestSite(moved);

    assertThat(image(site.get("/shots/1/preview?w=240")).getWidth()).isEqualTo(240);
  }

  /** The header alone claims 3.6 thousand million pixels; decoding it would fill the memory. */
  @Test
  void absurdDimensionsAreRefusedBeforeDecoding() throws IOException {
    Path bomb = folder.resolve("bomb.png");
    Files.write(bomb, pngHeader(60_000, 60_000));
    assertThat(ImageIO.getImageReadersBySuffix("png").hasNext()).isTrue();

    assertThat(new PreviewMaker(Optional.empty()).make(bomb, 1, 480)).isEmpty();
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

  private static byte[] rawPointingTo(int strip, int jpeg) {
    return ExifBuilder.bigEndian()
        .bytes(Directory.IFD0, 0xC612, 1, 4, 0, 0)
        .longs(Directory.IFD0, 0x0111, strip)
        .longs(Directory.IFD0, 0x0201, jpeg)
        .tiff();
  }

  @Test
  void aRawFileShowsThePictureInsideItUpright() throws IOException {
    Path raw =
        Files.write(
            folder.resolve("a.dng"),
            TestPhotos.concat(
                rawPointingTo(0, rawPointingTo(0, 0).length),
                TestPhotos.shot(null, "", 0, 0, null, 1)));

    byte[] made = new PreviewMaker(Optional.empty()).make(raw, 6, 240).orElseThrow();

    BufferedImage upright = ImageIO.read(new ByteArrayInputStream(made));
    assertThat(upright.getWidth()).isEqualTo(240);
    assertThat(upright.getHeight()).isEqualTo(320);
    assertThat(upright.getRGB(30, 8) & 0xff).as("dark on top").isLessThan(0x50);
    assertThat(new String(made, StandardCharsets.ISO_8859_1)).doesNotContain("Exif");
  }

  /** The larger picture has a frame of 9000 by 6000 pixels and nothing behind it. */
  @Test
  void thePictureInsideThatDoesNotDecodeIsPassedOver() throws IOException {
    byte[] frame =
        ByteBuffer.allocate(15)
            .put((byte) 8)
            .putShort((short) 6000)
            .putShort((short) 9000)
            .put(new byte[] {3, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0})
            .array();
    byte[] broken =
        TestPhotos.concat(
            new byte[] {(byte) 0xFF, (byte) 0xD8}, ExifBuilder.segment(0xC0, "", frame));
    int length = rawPointingTo(0, 0).length;
    byte[] tiff = rawPointingTo(length, length + broken.length);
    byte[] jpeg = TestPhotos.shot(null, "", 0, 0, null, 1);
    Path raw = Files.write(folder.resolve("a.dng"), TestPhotos.concat(tiff, broken, jpeg));

    byte[] made = new PreviewMaker(Optional.empty()).make(raw, 1, 240).orElseThrow();

    assertThat(ImageIO.read(new ByteArrayInputStream(made)).getHeight()).isEqualTo(180);
    Path only = Files.write(folder.resolve("b.dng"), TestPhotos.concat(tiff, broken));
    assertThat(new PreviewMaker(Optional.empty()).make(only, 1, 240)).isEmpty();
  }

  /** A HEIC file of nothing but the size that it claims. */
  private static byte[] heic(int width, int height) {
    byte[] type = TestPhotos.box("ftyp", "heic\0\0\0\0".getBytes(StandardCharsets.US_ASCII));
    byte[] size = ByteBuffer.allocate(12).putInt(4, width).putInt(8, height).array();
    byte[] properties =
        TestPhotos.box("iprp", TestPhotos.box("ipco", TestPhotos.box("ispe", size)));
    return TestPhotos.concat(type, TestPhotos.box("meta", new byte[4], properties));
  }

  private HeifConverter converter(String script, Duration longest) throws IOException {
    Path program = folder.resolve("bin/heif-convert");
    Files.createDirectories(program.getParent());
    Files.writeString(program, "#!/bin/sh\n" + script + "\n");
    assertThat(program.toFile().setExecutable(true)).isTrue();
    return HeifConverter.in(
            folder.resolve("none") + File.pathSeparator + program.getParent(), longest)
        .orElseThrow();
  }

  @Test
  void aConvertersPictureIsTakenAsItIsAndCleanedUp() throws IOException {
    Path heic = Files.write(folder.resolve("-odd name'.heic"), heic(640, 480));
    Path jpeg = Files.write(folder.resolve("x.jpg"), TestPhotos.shot(null, "", 0, 0, null, 1));
    HeifConverter converter =
        converter(
            "test -r \"$1\" && cp '"
                + jpeg
                + "' \"${2%.jpg}-1.jpg\" && echo \"$2\" > '"
                + folder.resolve("called")
                + "'",
            Duration.ofSeconds(20));

    byte[] made = new PreviewMaker(Optional.of(converter)).make(heic, 6, 240).orElseThrow();

    BufferedImage image = ImageIO.read(new ByteArrayInputStream(made));
    assertThat(image.getHeight()).as("the converter has turned it already").isEqualTo(180);
    Path out = Path.of(Files.readString(folder.resolve("called")).strip());
    assertThat(out.getParent()).doesNotExist();
  }

  @Test
  void aConverterThatFailsOrHangsGivesNoPreview() throws IOException {
    Path heic = Files.write(folder.resolve("a.heic"), heic(640, 480));
    HeifConverter failing = converter("exit 1", Duration.ofSeconds(20));
    assertThat(new PreviewMaker(Optional.of(failing)).make(heic, 1, 240)).isEmpty();

    HeifConverter hanging = converter("exec sleep 60", Duration.ofMillis(300));
    Assertions.assertTimeoutPreemptively(
        Duration.ofSeconds(20),
        () -> assertThat(new PreviewMaker(Optional.of(hanging)).make(heic, 1, 240)).isEmpty());
  }

  @Test
  void noConverterIsAskedAboutAbsurdDimensions() throws IOException {
    Path bomb = Files.write(folder.resolve("a.heic"), heic(40_000, 40_000));
    HeifConverter converter =
        converter("touch '" + folder.resolve("called") + "'", Duration.ofSeconds(20));

    assertThat(new PreviewMaker(Optional.of(converter)).make(bomb, 1, 240)).isEmpty();
    assertThat(folder.resolve("called")).doesNotExist();
  }

  /** The converter of this machine, on a phone's picture. */
  @Test
  void aRealConverterShowsAPhonesPicture() throws IOException {
    Assumptions.assumeTrue(
        HeifConverter.installed().isPresent(), "heif-convert (libheif-examples) is not installed");
    Path heic = Reference.path("photos/mei/Issue 263 dotnet.heic");

    byte[] made = new PreviewMaker(HeifConverter.installed()).make(heic, 6, 480).orElseThrow();

    BufferedImage image = ImageIO.read(new ByteArrayInputStream(made));
    assertThat(image.getWidth()).isEqualTo(480);
    assertThat(image.getHeight()).as("upright: taken with the phone upright").isEqualTo(640);
  }
}

package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.lightledger.shot.exif.ExifBuilder.Directory.EXIF;
import static org.lightledger.shot.exif.ExifBuilder.Directory.GPS;
import static org.lightledger.shot.exif.ExifBuilder.Directory.IFD0;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.zone.ZonesAtPlace;
import org.lightledger.testing.Reference;

/** Damaged files, made by the thousand: each is read, or refused by name, and fast. */
class EvidenceFuzzTest {
  private static final ShotRules RULES =
      new ShotRules(
          (place, withinM) -> new ZonesAtPlace(List.of(ZoneId.of("Europe/Madrid")), List.of()));

  private static byte[] handBuilt() {
    byte[] exif =
        ExifBuilder.segment(
            0xE1,
            "Exif\0\0",
            ExifBuilder.littleEndian()
                .ascii(IFD0, Tags.MAKE, "Maker")
                .ascii(IFD0, Tags.DATE_TIME, "2024:06:21 19:30:05")
                .shorts(IFD0, Tags.ORIENTATION, 6)
                .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, "2024:06:21 19:30:05")
                .ascii(EXIF, Tags.OFFSET_TIME_ORIGINAL, "+02:00")
                .ascii(EXIF, Tags.SUB_SEC_TIME_ORIGINAL, "123")
                .rationals(EXIF, Tags.EXPOSURE_TIME, 1, 250)
                .rationals(EXIF, Tags.F_NUMBER, 28, 10)
                .shorts(EXIF, Tags.PHOTOGRAPHIC_SENSITIVITY, 200)
                .position(
                    "N",
                    new long[] {41, 1, 57, 1, 1234, 100},
                    "W",
                    new long[] {6, 1, 36, 1, 3456, 100})
                .bytes(GPS, Tags.GPS_ALTITUDE_REF, 0)
                .rationals(GPS, Tags.GPS_ALTITUDE, 7654, 10)
                .rationals(GPS, Tags.GPS_TIME_STAMP, 17, 1, 30, 1, 350, 100)
                .ascii(GPS, Tags.GPS_DATE_STAMP, "2024:06:21")
                .ascii(GPS, Tags.GPS_IMG_DIRECTION_REF, "M")
                .rationals(GPS, Tags.GPS_IMG_DIRECTION, 12345, 100)
                .tiff());
    return ExifBuilder.jpegOf(
        exif,
        ExifBuilder.xmpSegment("exif:GPSLatitude=\"48,53.3N\" exif:GPSLongitude=\"21,2.5E\""));
  }

  @Test
  void mutationsOfAHandBuiltFileAreReadOrRefused(TestReporter reporter) {
    byte[] jpeg = handBuilt();
    byte[] tiff =
        ExifBuilder.bigEndian()
            .shorts(IFD0, Tags.IMAGE_WIDTH, 100)
            .ascii(EXIF, Tags.DATE_TIME_ORIGINAL, "2024:06:21 19:30:05")
            .tiff();
    reporter.publishEntry("hand-built", mutate(List.of(jpeg, tiff), 20_000, 20240621));
  }

  @Test
  void mutationsOfRealFilesAreReadOrRefused(TestReporter reporter) throws IOException {
    List<byte[]> small = new ArrayList<>();
    for (Map<String, String> row : Reference.csv("photos/truth.csv")) {
      byte[] content = Files.readAllBytes(Reference.path("photos/" + row.get("file")));
      if (content.length <= 16_384) {
        small.add(content);
      }
    }
    assertThat(small).hasSizeGreaterThan(50);
    reporter.publishEntry("real files", mutate(small, 10_000, 4711));
  }

  /** Reads mutations; a hang or an allocation without bounds fails by the time or memory limit. */
  private static String mutate(List<byte[]> seeds, int rounds, long seed) {
    Random random = new Random(seed);
    int[] counts = new int[2];
    Assertions.assertTimeoutPreemptively(
        Duration.ofMinutes(2),
        () -> {
          for (int i = 0; i < rounds; i++) {
            byte[] content = mutation(seeds.get(random.nextInt(seeds.size())), random);
            counts[readOrRefuse(content) ? 0 : 1]++;
          }
        });
    assertThat(counts[0]).as("some mutations must still be read").isPositive();
    return counts[0] + " read, " + counts[1] + " refused by name";
  }

  private static boolean readOrRefuse(byte[] content) {
    try {
      Evidence evidence = EvidenceReader.read(content);
      Shot shot = RULES.conclude(evidence, null);
      assertThat(shot.problems())
          .allSatisfy(problem -> assertThat(problem.message()).hasSizeLessThan(400));
      return true;
    } catch (UnreadableImageException e) {
      assertThat(e.problem().message()).isNotBlank();
      return false;
    }
  }

  private static byte[] mutation(byte[] seed, Random random) {
    byte[] content = seed.clone();
    int changes = 1 + random.nextInt(6);
    for (int i = 0; i < changes && content.length > 4; i++) {
      // Headers and directories stand in front, so most changes are made there.
      int reach = random.nextInt(4) == 0 ? content.length : Math.min(content.length, 400);
      int at = random.nextInt(reach);
      switch (random.nextInt(6)) {
        case 0 -> content[at] = (byte) random.nextInt(256);
        case 1 -> content[at] ^= (byte) (1 << random.nextInt(8));
        case 2 -> Arrays.fill(content, at, Math.min(content.length, at + 4), (byte) 0xFF);
        case 3 -> Arrays.fill(content, at, Math.min(content.length, at + 4), (byte) 0);
        case 4 -> content = Arrays.copyOf(content, at + 1);
        default -> {
          int to = Math.min(content.length, at + random.nextInt(64));
          byte[] longer = Arrays.copyOf(content, content.length + to - at);
          System.arraycopy(content, at, longer, to, content.length - at);
          content = longer;
        }
      }
    }
    return content;
  }

  /** A tag that claims four gigabytes, in each type and directory, must cost next to nothing. */
  @Test
  void claimsOfHugeSizeAreNotBelieved() {
    for (int type = 0; type <= 18; type++) {
      for (int tag : new int[] {Tags.MAKE, Tags.SUB_IFDS, Tags.EXIF_IFD, Tags.XMP}) {
        byte[] tiff = ExifBuilder.bigEndian().longs(IFD0, tag, 8).tiff();
        ByteBuffer.wrap(tiff).putShort(12, (short) type).putInt(14, 0xFFFFFFFF).putInt(18, 8);
        byte[] content = ExifBuilder.jpegOf(ExifBuilder.segment(0xE1, "Exif\0\0", tiff));
        Assertions.assertTimeoutPreemptively(
            Duration.ofSeconds(10), () -> assertThat(readOrRefuse(content)).isTrue());
      }
    }
  }

  /** Directories that point at themselves and at each other. */
  @Test
  void circlesOfDirectoriesEnd() {
    for (int target : new int[] {0, 8, 10}) {
      byte[] tiff =
          ExifBuilder.bigEndian()
              .longs(IFD0, Tags.EXIF_IFD, target)
              .longs(IFD0, Tags.GPS_IFD, target)
              .longs(IFD0, Tags.SUB_IFDS, target, target, target)
              .tiff();
      byte[] content = ExifBuilder.jpegOf(ExifBuilder.segment(0xE1, "Exif\0\0", tiff));
      Assertions.assertTimeoutPreemptively(
          Duration.ofSeconds(10), () -> assertThat(readOrRefuse(content)).isTrue());
    }
  }

  /** XML that doubles itself; the entities need a document type, which is not accepted. */
  @Test
  void xmpCanNotGrowInMemory() {
    StringBuilder packet = new StringBuilder("<!DOCTYPE x [<!ENTITY a0 \"GPSLatitude\">");
    for (int i = 1; i < 40; i++) {
      String before = "&a" + (i - 1) + ";";
      packet.append("<!ENTITY a" + i + " \"" + before + before + "\">");
    }
    packet.append("]><x>&a39;</x>");
    byte[] content =
        ExifBuilder.jpegOf(
            ExifBuilder.segment(
                0xE1, "http://ns.adobe.com/xap/1.0/\0", packet.toString().getBytes(UTF_8)));
    Assertions.assertTimeoutPreemptively(
        Duration.ofSeconds(10), () -> assertThat(readOrRefuse(content)).isTrue());
  }
}

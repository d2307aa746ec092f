package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.lightledger.shot.exif.ExifBuilder.Directory.EXIF;
import static org.lightledger.shot.exif.ExifBuilder.Directory.GPS;
import static org.lightledger.shot.exif.ExifBuilder.Directory.IFD0;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestReporter;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.zone.ZonesAtPlace;

/** Damaged files, made by the thousand: each is read, or refused by name, and fast. */
class EvidenceFuzzTest {
  private static final ShotRules RULES =
      new ShotRules(
          (place, withinM) -> new ZonesAtPlace(List.of(ZoneId.of("Europe/Madrid")), List.of()));

  /**
   * The largest seed has 720 kB; its metadata may be copied a few times, as the file itself may
   * when a length claims all of it.
   */
  private static final long MOST_ALLOCATED_BYTES = 16L * 1024 * 1024;

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
    reporter.publishEntry("hand-built", mutate(List.of(jpeg, tiff), 10_000, 20240621));
  }

  @Test
  void mutationsOfRealFilesAreReadOrRefused(TestReporter reporter) {
    List<byte[]> files = Mutations.realFiles(16_384, 16_384);
    assertThat(files).hasSizeGreaterThan(50);
    reporter.publishEntry("small real files", mutate(files, 6000, 4711));
  }

  /** Phones' pictures and raw files, whose metadata stands deep in the file. */
  @Test
  void mutationsOfLargerFilesOfOtherFormatsAreReadOrRefused(TestReporter reporter) {
    List<byte[]> files = Mutations.realFiles(0, 800_000);
    assertThat(files).hasSizeGreaterThan(25);
    reporter.publishEntry("other formats", mutate(files, 3000, 4712));
  }

  /** Reads mutations; a hang fails by the time limit, a large allocation by its size. */
  private static String mutate(List<byte[]> seeds, int rounds, long seed) {
    Mutations mutations = new Mutations(seeds, seed);
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    int[] counts = new int[2];
    long[] most = new long[1];
    Assertions.assertTimeoutPreemptively(
        Duration.ofMinutes(2),
        () -> {
          for (int i = 0; i < rounds; i++) {
            byte[] content = mutations.next();
            long before = threads.getCurrentThreadAllocatedBytes();
            counts[readOrRefuse(content) ? 0 : 1]++;
            EmbeddedPreview.find(ImageBytes.of(content));
            most[0] = Math.max(most[0], threads.getCurrentThreadAllocatedBytes() - before);
          }
        });
    assertThat(counts[0]).as("some mutations must still be read").isPositive();
    assertThat(most[0]).as("bytes allocated for one file").isLessThan(MOST_ALLOCATED_BYTES);
    return counts[0] + " read, " + counts[1] + " refused by name, most bytes " + most[0];
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

  @Test
  void mutatedSidecarsLeaveTheImageItsOwn() throws Exception {
    Evidence image = EvidenceReader.read(handBuilt());
    byte[] sidecar =
        ("<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"
                + "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
                + "<rdf:Description rdf:about=\"\" xmlns:exif=\"http://ns.adobe.com/exif/1.0/\""
                + " exif:GPSLatitude=\"48,53.3N\" exif:GPSLongitude=\"21,2.5E\""
                + " exif:GPSImgDirection=\"12345/100\" exif:GPSImgDirectionRef=\"T\""
                + " exif:DateTimeOriginal=\"2024-06-21T19:30:05+02:00\"/>"
                + "</rdf:RDF></x:xmpmeta>")
            .getBytes(UTF_8);
    Mutations mutations = new Mutations(List.of(sidecar), 77);
    int unreadable = 0;
    for (int i = 0; i < 3000; i++) {
      Evidence joined = XmpSidecar.join(image, mutations.next());
      assertThat(joined.localTime()).isEqualTo(image.localTime());
      assertThat(joined.position()).isNotNull();
      unreadable += joined.position().equals(image.position()) ? 1 : 0;
    }
    assertThat(unreadable).isPositive().isLessThan(3000);
  }
}

package org.lightledger.indexing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Random;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;

/**
 * Writes small JPEG files with the tags of a scouting shot (Exif 2.32, sections 4.6.5 and 4.6.6).
 */
final class TestPhotos {
  private static final int MAKE = 0x010F;
  private static final int DNG_VERSION = 0xC612;
  private static final int EXPOSURE_TIME = 0x829A;
  private static final int F_NUMBER = 0x829D;
  private static final int ISO = 0x8827;
  private static final int DATE_TIME_ORIGINAL = 0x9003;
  private static final int OFFSET_TIME_ORIGINAL = 0x9011;
  private static final int GPS_DIRECTION_REF = 16;
  private static final int GPS_DIRECTION = 17;

  private TestPhotos() {}

  static byte[] shot(
      String localTime, String offset, double latitudeDeg, double longitudeDeg, double facingDeg) {
    return ExifBuilder.bigEndian()
        .ascii(Directory.IFD0, MAKE, "Test")
        .ascii(Directory.EXIF, DATE_TIME_ORIGINAL, localTime)
        .ascii(Directory.EXIF, OFFSET_TIME_ORIGINAL, offset)
        .rationals(Directory.EXIF, EXPOSURE_TIME, 1, 250)
        .rationals(Directory.EXIF, F_NUMBER, 28, 10)
        .shorts(Directory.EXIF, ISO, 100)
        .position(
            latitudeDeg < 0 ? "S" : "N",
            microDegrees(latitudeDeg),
            longitudeDeg < 0 ? "W" : "E",
            microDegrees(longitudeDeg))
        .ascii(Directory.GPS, GPS_DIRECTION_REF, "T")
        .rationals(Directory.GPS, GPS_DIRECTION, Math.round(facingDeg * 100), 100)
        .jpeg();
  }

  private static byte[] raw(String localTime) {
    return ExifBuilder.bigEndian()
        .bytes(Directory.IFD0, DNG_VERSION, 1, 4, 0, 0)
        .ascii(Directory.IFD0, MAKE, "Test")
        .ascii(Directory.EXIF, DATE_TIME_ORIGINAL, localTime)
        .tiff();
  }

  private static long[] microDegrees(double angleDeg) {
    return new long[] {Math.round(Math.abs(angleDeg) * 1e7), 10_000_000, 0, 1, 0, 1};
  }

  /** Many shots around some thirty places, in an order of names that mixes the places. */
  static void fill(Path folder, int count) {
    fill(folder, count, Integer.MAX_VALUE);
  }

  /**
   * The same, and beside every so many a raw file of the same shot that knows no place, and that
   * comes before it in the order of names.
   */
  static void fill(Path folder, int count, int rawEvery) {
    Random random = new Random(11);
    for (int i = 0; i < count; i++) {
      int place = random.nextInt(30);
      double latitudeDeg = 41.90 + 0.002 * (place % 6) + 0.00003 * random.nextDouble();
      double longitudeDeg = -6.45 + 0.002 * (place / 6) + 0.00003 * random.nextDouble();
      String time =
          String.format(
              Locale.ROOT,
              "2026:%02d:%02d %02d:%02d:%02d",
              1 + random.nextInt(12),
              1 + random.nextInt(28),
              8 + random.nextInt(12),
              random.nextInt(60),
              i % 60);
      if (i % rawEvery == rawEvery - 1) {
        write(folder.resolve(String.format(Locale.ROOT, "shot%05d.dng", i)), raw(time));
      }
      write(
          folder.resolve(String.format(Locale.ROOT, "shot%05d.jpg", i)),
          shot(time, "+01:00", latitudeDeg, longitudeDeg, 360 * random.nextDouble()));
    }
  }

  static void write(Path file, byte[] content) {
    try {
      Files.createDirectories(file.getParent());
      Files.write(file, content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

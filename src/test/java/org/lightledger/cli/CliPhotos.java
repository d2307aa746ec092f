package org.lightledger.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;

/** Writes small JPEG files with a time and a place (Exif 2.32, sections 4.6.5 and 4.6.6). */
final class CliPhotos {
  private static final int DATE_TIME_ORIGINAL = 0x9003;
  private static final int OFFSET_TIME_ORIGINAL = 0x9011;

  private CliPhotos() {}

  static void write(Path folder, String name, double latitudeDeg, double longitudeDeg) {
    byte[] content =
        ExifBuilder.bigEndian()
            .ascii(Directory.EXIF, DATE_TIME_ORIGINAL, "2026:05:09 19:30:00")
            .ascii(Directory.EXIF, OFFSET_TIME_ORIGINAL, "+02:00")
            .position("N", degrees(latitudeDeg), "W", degrees(-longitudeDeg))
            .jpeg();
    try {
      Files.createDirectories(folder);
      Files.write(folder.resolve(name), content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static long[] degrees(double angleDeg) {
    return new long[] {Math.round(angleDeg * 1e7), 10_000_000, 0, 1, 0, 1};
  }
}

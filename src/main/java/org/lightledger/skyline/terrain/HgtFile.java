package org.lightledger.skyline.terrain;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.jspecify.annotations.Nullable;

/**
 * A tile of one degree as NASA's shuttle radar mission published them (USGS, SRTM Topography
 * documentation, 2.1): 1201 or 3601 rows of as many posts from the north-west, whole metres, big
 * endian; the file's name tells the south-west corner. Plain, or alone in a zip.
 *
 * @param file where
 * @param south latitude of the southern edge, whole degrees
 * @param west longitude of the western edge, whole degrees
 * @param cells cells on a side, 1200 or 3600
 */
record HgtFile(Path file, int south, int west, int cells) {
  private static final Pattern NAME =
      Pattern.compile("([ns])(\\d{2})([ew])(\\d{3}).*\\.hgt(\\.zip)?");
  private static final int THREE_ARC_SECONDS = 1200;
  private static final int ONE_ARC_SECOND = 3600;

  static boolean looksLike(String lowerCaseName) {
    return lowerCaseName.endsWith(".hgt") || lowerCaseName.endsWith(".hgt.zip");
  }

  /** Reads what the name and the length tell, not the posts. */
  static HgtFile open(Path file) throws IOException {
    String name = file.getFileName().toString();
    Matcher parts = NAME.matcher(name.toLowerCase(Locale.ROOT));
    if (!parts.matches()) {
      throw new ElevationFileException(
          name + ": expected a name such as N43E007.hgt, which tells the tile's corner; rename it");
    }
    int south = Integer.parseInt(parts.group(2)) * ("n".equals(parts.group(1)) ? 1 : -1);
    int west = Integer.parseInt(parts.group(4)) * ("e".equals(parts.group(3)) ? 1 : -1);
    if (south < -90 || south > 89 || west < -180 || west > 179) {
      throw new ElevationFileException(
          name + ": expected a south-west corner on the earth, found " + south + "," + west);
    }
    return new HgtFile(file, south, west, cells(name, length(file)));
  }

  private static int cells(String name, long bytes) throws ElevationFileException {
    for (int cells : new int[] {THREE_ARC_SECONDS, ONE_ARC_SECOND}) {
      if (bytes == postBytes(cells)) {
        return cells;
      }
    }
    throw new ElevationFileException(
        "%s: expected %d bytes (3 arc seconds) or %d bytes (1 arc second), found %d; fetch it again"
            .formatted(name, postBytes(THREE_ARC_SECONDS), postBytes(ONE_ARC_SECOND), bytes));
  }

  private static long postBytes(int cells) {
    return (cells + 1L) * (cells + 1L) * Short.BYTES;
  }

  private static boolean zipped(Path file) {
    return file.getFileName().toString().toLowerCase(Locale.ROOT).endsWith(".zip");
  }

  private static long length(Path file) throws IOException {
    if (!zipped(file)) {
      return Files.size(file);
    }
    try (ZipFile zip = new ZipFile(file.toFile())) {
      return entry(file, zip).getSize();
    }
  }

  private static ZipEntry entry(Path file, ZipFile zip) throws ElevationFileException {
    @Nullable ZipEntry found =
        zip.stream()
            .filter(entry -> entry.getName().toLowerCase(Locale.ROOT).endsWith(".hgt"))
            .findFirst()
            .orElse(null);
    if (found == null) {
      throw new ElevationFileException(
          file.getFileName() + ": expected an .hgt file in the zip, found none");
    }
    return found;
  }

  /** Reads all posts. */
  Posts posts() throws IOException {
    short[] heights = new short[(cells + 1) * (cells + 1)];
    byte[] bytes;
    if (zipped(file)) {
      try (ZipFile zip = new ZipFile(file.toFile());
          InputStream in = zip.getInputStream(entry(file, zip))) {
        bytes = in.readAllBytes();
      }
    } else {
      bytes = Files.readAllBytes(file);
    }
    cells(file.getFileName().toString(), bytes.length);
    ByteBuffer.wrap(bytes).order(ByteOrder.BIG_ENDIAN).asShortBuffer().get(heights);
    return new Posts.Whole(cells + 1, heights);
  }

  /** All tiles of a spacing lie on one lattice over the whole earth. */
  static GridMapping mapping(int cells) {
    return (latLonDeg, colRow, places) -> {
      for (int i = 0; i < 2 * places; i += 2) {
        colRow[i] = (latLonDeg[i + 1] + 180.0) * cells;
        colRow[i + 1] = (90.0 - latLonDeg[i]) * cells;
      }
    };
  }

  int chunkCol() {
    return west + 180;
  }

  int chunkRow() {
    return 89 - south;
  }
}

package org.lightledger.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;

/**
 * Reads spots from the text formats that {@link SpotFormat} names and from zipped KML. A file's
 * first bytes tell its format, not its name. What it says is read within bounds of size, depth and
 * number; nothing that it names elsewhere is opened.
 */
public final class SpotReader {
  /** The largest file, bytes; own choice: some 100,000 features. */
  public static final long LARGEST_BYTES = 32L << 20;

  /** The most features of a file; own choice. */
  public static final int MOST_FEATURES = 100_000;

  private static final byte[] SQLITE = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);

  private SpotReader() {}

  /**
   * Whether a file is a SQLite database, as every GeoPackage is.
   *
   * @param file any file
   * @return true by its first bytes
   * @throws IOException when it can not be read
   */
  public static boolean isSqlite(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return Arrays.equals(in.readNBytes(SQLITE.length), SQLITE);
    }
  }

  /**
   * Reads a file.
   *
   * @param file GeoJSON, KML, KMZ or GPX
   * @return what it says
   * @throws UnreadableSpotsException when nothing of it can be taken over
   * @throws IOException when it can not be read
   */
  public static SpotFile read(Path file) throws IOException, UnreadableSpotsException {
    long bytes = Files.size(file);
    if (bytes > LARGEST_BYTES) {
      throw tooLarge("The file has " + (bytes >> 20) + " MB");
    }
    byte[] content = Files.readAllBytes(file);
    boolean zipped = content.length > 4 && content[0] == 'P' && content[1] == 'K';
    return read(zipped ? Kmz.document(file) : content);
  }

  static UnreadableSpotsException tooLarge(String found) {
    return new UnreadableSpotsException(
        found
            + ", expected at most "
            + (LARGEST_BYTES >> 20)
            + " MB; nothing of it was taken over. Export fewer features into it.");
  }

  /**
   * Reads what a file holds.
   *
   * @param content GeoJSON, KML or GPX
   * @return what it says
   * @throws UnreadableSpotsException when nothing of it can be taken over
   * @throws IOException never for content in memory
   */
  public static SpotFile read(byte[] content) throws IOException, UnreadableSpotsException {
    switch (firstCharacter(content)) {
      case '{' -> {
        return GeoJsonReading.read(content);
      }
      case '<' -> {
        XmlIn xml = XmlIn.atRoot(content);
        switch (xml.name()) {
          case "kml" -> {
            return new KmlReading(xml).read();
          }
          case "gpx" -> {
            return new GpxReading(xml).read();
          }
          default -> throw unknown("XML that is neither");
        }
      }
      default -> throw unknown("something else");
    }
  }

  private static UnreadableSpotsException unknown(String found) {
    return new UnreadableSpotsException(
        "Expected GeoJSON, KML, KMZ, GPX or a GeoPackage, found "
            + found
            + "; nothing of the file was taken over. Export it in one of these.");
  }

  /** The first one that is neither white space nor a byte order mark nor half of UTF-16. */
  private static char firstCharacter(byte[] content) {
    for (int index = 0; index < Math.min(content.length, 1000); index++) {
      char c = (char) (content[index] & 0xff);
      if (c > ' ' && c < 0x7f) {
        return c;
      }
    }
    return 0;
  }
}

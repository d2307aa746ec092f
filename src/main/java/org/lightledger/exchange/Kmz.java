package org.lightledger.exchange;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;

/**
 * Finds the KML in a KMZ (OGC 07-147r2, annex C): the first file at the archive's root whose name
 * ends in .kml. Nothing else of the archive is unpacked, and that within bounds of its own: what an
 * archive says of its sizes is not believed.
 */
final class Kmz {
  /** Text of maps shrinks to a tenth or twentieth; own choice, far beyond that. */
  static final int LARGEST_RATIO = 100;

  /** Below so many bytes the ratio does no harm; own choice. */
  private static final int HARMLESS_BYTES = 1 << 20;

  private Kmz() {}

  static byte[] document(Path file) throws IOException, UnreadableSpotsException {
    try (ZipFile zip = new ZipFile(file.toFile())) {
      ZipEntry entry =
          zip.stream()
              .filter(Kmz::isDocument)
              .findFirst()
              .orElseThrow(
                  () ->
                      new UnreadableSpotsException(
                          "Expected a KMZ with a .kml at its root, found a zip archive without"
                              + " one; nothing of it was taken over."));
      try (InputStream in = zip.getInputStream(entry)) {
        return unpacked(in, Math.min(entry.getCompressedSize(), Files.size(file)));
      }
    } catch (ZipException e) {
      throw new UnreadableSpotsException(
          "Expected a KMZ, found a damaged zip archive; nothing of it was taken over. Export it"
              + " again.",
          e);
    }
  }

  private static boolean isDocument(ZipEntry entry) {
    String name = entry.getName();
    return name.indexOf('/') < 0
        && name.indexOf('\\') < 0
        && name.toLowerCase(Locale.ROOT).endsWith(".kml");
  }

  private static byte[] unpacked(InputStream in, long packedBytes)
      throws IOException, UnreadableSpotsException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    byte[] part = new byte[1 << 16];
    for (int length = in.read(part); length >= 0; length = in.read(part)) {
      out.write(part, 0, length);
      if (out.size() > SpotReader.LARGEST_BYTES) {
        throw SpotReader.tooLarge("The KMZ unpacks to more than fits");
      }
      if (out.size() > HARMLESS_BYTES && out.size() > packedBytes * LARGEST_RATIO) {
        throw new UnreadableSpotsException(
            "The KMZ unpacks to more than "
                + LARGEST_RATIO
                + " times its size, which no map does; nothing of it was taken over.");
      }
    }
    return out.toByteArray();
  }
}

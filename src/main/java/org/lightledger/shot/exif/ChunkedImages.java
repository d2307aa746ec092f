package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.EOFException;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** Files made of chunks: PNG (W3C PNG, third edition) and WebP (RFC 9649). */
final class ChunkedImages {
  /** Behind the signature (PNG 5.2). */
  private static final int PNG_FIRST_CHUNK = 8;

  /** Behind "RIFF", a size and "WEBP" (RFC 9649, 2.4). */
  private static final int WEBP_FIRST_CHUNK = 12;

  /** A picture in small pieces has some thousand chunks. Own choice. */
  private static final int MOST_CHUNKS = 100_000;

  /** XMP specification part 3, 1.1.5: the keyword of the XMP packet in PNG. */
  private static final byte[] PNG_XMP = "XML:com.adobe.xmp\0".getBytes(ISO_8859_1);

  private ChunkedImages() {}

  static Optional<Container> png(ImageBytes bytes) {
    ExifBlock exif = ExifBlock.empty();
    byte[] xmp = null;
    Integer width = null;
    Integer height = null;
    boolean ended = false;
    int chunks = 0;
    long at = PNG_FIRST_CHUNK;
    try {
      while (!ended && chunks < MOST_CHUNKS && bytes.has(at, 8)) {
        long length = bytes.uint32(at);
        String type = new String(bytes.copy(at + 4, 4), ISO_8859_1);
        long from = at + 8;
        chunks++;
        switch (type) {
          case "IHDR" -> {
            width = Container.dimension(bytes.uint32(from));
            height = Container.dimension(bytes.uint32(from + 4));
          }
          case "eXIf" -> exif = Container.exifOf(Container.metadata(bytes, from, length));
          case "iTXt" -> xmp = xmp == null ? pngXmp(bytes, from, length) : xmp;
          case "IEND" -> ended = true;
          default -> {}
        }
        at = from + length + 4;
      }
    } catch (EOFException e) {
      ended = false;
    }
    return chunks == 0
        ? Optional.empty()
        : Optional.of(new Container(exif, xmp, width, height, !ended));
  }

  /** The packet, when it is not compressed: behind two flags, and two texts that end with zero. */
  private static byte @Nullable [] pngXmp(ImageBytes bytes, long from, long length)
      throws EOFException {
    if (length <= PNG_XMP.length + 4 || !bytes.startsWith(from, PNG_XMP)) {
      return null;
    }
    byte[] chunk = Container.metadata(bytes, from, length);
    int at = PNG_XMP.length;
    if (chunk[at] != 0) {
      return null;
    }
    at += 2;
    for (int text = 0; text < 2; text++) {
      while (at < chunk.length && chunk[at] != 0) {
        at++;
      }
      at++;
    }
    return at >= chunk.length ? null : Arrays.copyOfRange(chunk, at, chunk.length);
  }

  static Optional<Container> webp(ImageBytes bytes) {
    ExifBlock exif = ExifBlock.empty();
    byte[] xmp = null;
    Integer width = null;
    Integer height = null;
    int chunks = 0;
    boolean damaged = false;
    long at = WEBP_FIRST_CHUNK;
    try {
      while (chunks < MOST_CHUNKS && bytes.has(at, 8)) {
        String type = new String(bytes.copy(at, 4), ISO_8859_1);
        long length = bytes.uint32LittleEndian(at + 4);
        long from = at + 8;
        chunks++;
        damaged |= !bytes.has(from, length);
        switch (type) {
          case "VP8X" -> {
            width = uint24(bytes, from + 4) + 1;
            height = uint24(bytes, from + 7) + 1;
          }
          case "EXIF" -> exif = Container.exifOf(Container.metadata(bytes, from, length));
          case "XMP " -> xmp = Container.metadata(bytes, from, length);
          default -> {}
        }
        at = from + length + (length & 1);
      }
    } catch (EOFException e) {
      damaged = true;
    }
    return chunks == 0
        ? Optional.empty()
        : Optional.of(new Container(exif, xmp, width, height, damaged));
  }

  private static int uint24(ImageBytes bytes, long at) throws EOFException {
    return bytes.uint8(at) | bytes.uint8(at + 1) << 8 | bytes.uint8(at + 2) << 16;
  }
}

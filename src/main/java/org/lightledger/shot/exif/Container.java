package org.lightledger.shot.exif;

import java.io.EOFException;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * What was found around the picture: the Exif block, the XMP packet, the picture's size.
 *
 * @param exif the Exif block, empty when the file has none
 * @param xmp the XMP packet, or null
 * @param widthPx stored width, or null
 * @param heightPx stored height, or null
 * @param damaged whether a part of the file's structure could not be read
 */
record Container(
    ExifBlock exif,
    byte @Nullable [] xmp,
    @Nullable Integer widthPx,
    @Nullable Integer heightPx,
    boolean damaged) {
  /** No metadata is larger; Exif in a JPEG is at most 64 kB. Own choice, bytes. */
  static final int METADATA_LIMIT = 16 * 1024 * 1024;

  /** A TIFF header stands at most so far behind the start of an Exif payload; from memory. */
  private static final int HEADER_WITHIN = 64;

  /** A width or height in pixels, or null when it is none. */
  static @Nullable Integer dimension(@Nullable Long pixels) {
    return pixels == null || pixels <= 0 || pixels > Integer.MAX_VALUE
        ? null
        : Integer.valueOf(pixels.intValue());
  }

  /**
   * The Exif block of a payload. HEIF (ISO/IEC 23008-12 A.2.1) and JPEG XL write four bytes that
   * tell how far the TIFF header is away, others begin with "Exif" and two zeros or at once; the
   * header is looked for, whatever stands before it.
   */
  static ExifBlock exifOf(byte[] payload) {
    for (int at = 0; at + 4 <= payload.length && at < HEADER_WITHIN; at++) {
      boolean little = payload[at] == 'I' && payload[at + 1] == 'I' && payload[at + 2] == 42;
      boolean big = payload[at] == 'M' && payload[at + 1] == 'M' && payload[at + 3] == 42;
      if (little || big) {
        return ExifBlock.read(Arrays.copyOfRange(payload, at, payload.length));
      }
    }
    return ExifBlock.read(payload);
  }

  /** Copies metadata, refusing sizes that no metadata has. */
  static byte[] metadata(ImageBytes bytes, long from, long length) throws EOFException {
    if (length > METADATA_LIMIT) {
      throw bytes.outside(from, length);
    }
    return bytes.copy(from, length);
  }
}

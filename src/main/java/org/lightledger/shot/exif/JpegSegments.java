package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * The segments of a JPEG file that matter here, found by walking its markers (ITU-T T.81 annex B)
 * up to the start of the image data, so that the cost does not grow with the picture.
 *
 * @param exif the TIFF structure of the first Exif segment, or null
 * @param xmp the first XMP packet, or null
 * @param widthPx stored width, or null when no frame header was found
 * @param heightPx stored height, or null
 * @param segments how many segments were passed
 * @param damaged whether the walk broke before the image data
 */
record JpegSegments(
    byte @Nullable [] exif,
    byte @Nullable [] xmp,
    @Nullable Integer widthPx,
    @Nullable Integer heightPx,
    int segments,
    boolean damaged) {
  /** Exif (CIPA DC-008) 4.7.2: "Exif", 00, and a pad byte that some writers do not leave at 00. */
  private static final byte[] EXIF_ID = "Exif\0".getBytes(US_ASCII);

  private static final int EXIF_ID_LENGTH = 6;

  /** XMP specification part 3, 1.1.3. */
  private static final byte[] XMP_ID = "http://ns.adobe.com/xap/1.0/\0".getBytes(US_ASCII);

  private static final int APP1 = 0xE1;
  private static final int START_OF_SCAN = 0xDA;
  private static final int END_OF_IMAGE = 0xD9;

  /**
   * Walks a file. A segment that claims more than the file holds is cut at the file's end: what it
   * still says is worth reading.
   */
  static JpegSegments read(byte[] content) {
    byte[] exif = null;
    byte[] xmp = null;
    Integer width = null;
    Integer height = null;
    int segments = 0;
    int at = 2;
    boolean damaged = true;
    while (at + 4 <= content.length && (content[at] & 0xFF) == 0xFF) {
      int marker = content[at + 1] & 0xFF;
      if (marker == 0xFF) {
        at++;
        continue;
      }
      if (marker == START_OF_SCAN || marker == END_OF_IMAGE) {
        segments++;
        damaged = false;
        break;
      }
      if (isStandalone(marker)) {
        at += 2;
        continue;
      }
      int length = uint16(content, at + 2);
      if (length < 2) {
        break;
      }
      int from = at + 4;
      int to = Math.min(at + 2 + length, content.length);
      segments++;
      if (marker == APP1) {
        if (exif == null && startsWith(content, from, to, EXIF_ID)) {
          exif = Arrays.copyOfRange(content, Math.min(from + EXIF_ID_LENGTH, to), to);
        } else if (xmp == null && startsWith(content, from, to, XMP_ID)) {
          xmp = Arrays.copyOfRange(content, from + XMP_ID.length, to);
        }
      } else if (isFrameHeader(marker) && to - from >= 5 && width == null) {
        height = uint16(content, from + 1);
        width = uint16(content, from + 3);
      }
      at += 2 + length;
    }
    if (damaged && exif == null) {
      exif = findLostExif(content, Math.min(at, content.length));
    }
    return new JpegSegments(exif, xmp, width, height, segments, damaged);
  }

  /** Looks for an Exif segment behind the place where the walk broke. */
  private static byte @Nullable [] findLostExif(byte[] content, int from) {
    for (int at = from; at + 4 + EXIF_ID_LENGTH <= content.length; at++) {
      if ((content[at] & 0xFF) == 0xFF
          && (content[at + 1] & 0xFF) == APP1
          && startsWith(content, at + 4, content.length, EXIF_ID)) {
        int to = Math.min(content.length, at + 2 + Math.max(2, uint16(content, at + 2)));
        int start = at + 4 + EXIF_ID_LENGTH;
        return Arrays.copyOfRange(content, Math.min(start, to), to);
      }
    }
    return null;
  }

  /** TEM and RST0 to RST7 have no length (ITU-T T.81 table B.1); SOI may be repeated. */
  private static boolean isStandalone(int marker) {
    return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD8);
  }

  /** SOF0 to SOF15 but DHT, JPG and DAC (ITU-T T.81 table B.1). */
  private static boolean isFrameHeader(int marker) {
    return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
  }

  private static boolean startsWith(byte[] content, int from, int to, byte[] id) {
    return from + id.length <= to
        && Arrays.equals(content, from, from + id.length, id, 0, id.length);
  }

  private static int uint16(byte[] content, int at) {
    return (content[at] & 0xFF) << 8 | (content[at + 1] & 0xFF);
  }
}

package org.lightledger.shot.exif;

import java.io.EOFException;
import java.util.Optional;

/**
 * The size of a JPEG picture, found by walking a bounded number of its markers (ITU-T T.81 annex
 * B).
 *
 * @param widthPx width, pixels, greater than 0
 * @param heightPx height, pixels, greater than 0
 */
record JpegFrame(int widthPx, int heightPx) {
  /** A camera writes some twenty before the frame. Own choice. */
  private static final int MOST_MARKERS = 200;

  /** SOF0 to SOF2: baseline, extended, progressive; others are lossless or rare (table B.1). */
  private static final int BASELINE = 0xC0;

  private static final int PROGRESSIVE = 0xC2;
  private static final int OTHER_FRAMES_UNTIL = 0xCF;
  private static final int START_OF_SCAN = 0xDA;

  /** DHT, JPG and DAC stand among the frames' numbers (table B.1). */
  private static boolean isTable(int marker) {
    return marker == 0xC4 || marker == 0xC8 || marker == 0xCC;
  }

  /**
   * The frame of the JPEG that begins at an offset; nothing when none does, or one that common
   * decoders do not read: sensor data is often lossless JPEG.
   */
  static Optional<JpegFrame> at(ImageBytes bytes, long start) {
    try {
      if (!bytes.has(start, 4) || bytes.uint16(start) != 0xFFD8) {
        return Optional.empty();
      }
      long at = start + 2;
      for (int i = 0; i < MOST_MARKERS && bytes.uint8(at) == 0xFF; i++) {
        int marker = bytes.uint8(at + 1);
        if (marker == 0xFF) {
          at++;
        } else if (marker >= BASELINE && marker <= OTHER_FRAMES_UNTIL && !isTable(marker)) {
          int height = bytes.uint16(at + 5);
          int width = bytes.uint16(at + 7);
          boolean common = marker <= PROGRESSIVE && bytes.uint8(at + 4) == 8;
          return common && width > 0 && height > 0
              ? Optional.of(new JpegFrame(width, height))
              : Optional.empty();
        } else if (marker == START_OF_SCAN || bytes.uint16(at + 2) < 2) {
          return Optional.empty();
        } else {
          at += 2 + bytes.uint16(at + 2);
        }
      }
    } catch (EOFException e) {
      return Optional.empty();
    }
    return Optional.empty();
  }

  long pixels() {
    return (long) widthPx * heightPx;
  }
}

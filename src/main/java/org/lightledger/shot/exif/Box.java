package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;

import java.io.EOFException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A box of the ISO base media file format (ISO/IEC 14496-12, 4.2).
 *
 * @param type four characters
 * @param from first byte of its content, behind its header
 * @param to end of its content, at most the end of the file
 */
record Box(String type, long from, long to) {
  /** A file of a camera has some hundred at a level. Own choice. */
  private static final int MOST = 10_000;

  /** The user type of a "uuid" box comes before its content (ISO/IEC 14496-12, 4.2). */
  static final int USER_TYPE_BYTES = 16;

  /** The boxes of a range, in order; ends at the first that is none. */
  static List<Box> list(ImageBytes bytes, long from, long to) throws EOFException {
    List<Box> boxes = new ArrayList<>();
    long end = Math.min(to, bytes.length());
    long at = from;
    while (at >= 0 && at + 8 <= end && boxes.size() < MOST) {
      long size = bytes.uint32(at);
      int header = 8;
      if (size == 1 && at + 16 <= end) {
        size = bytes.uint(at + 8, 8);
        header = 16;
      } else if (size == 0) {
        size = end - at;
      }
      if (size < header) {
        break;
      }
      String type = new String(bytes.copy(at + 4, 4), ISO_8859_1);
      boolean whole = size <= end - at;
      boxes.add(new Box(type, at + header, whole ? at + size : end));
      if (!whole) {
        break;
      }
      at += size;
    }
    return boxes;
  }

  static Optional<Box> first(List<Box> boxes, String type) {
    return boxes.stream().filter(box -> box.type().equals(type)).findFirst();
  }

  /** The boxes inside this one, behind some bytes of its own. */
  List<Box> children(ImageBytes bytes, int behind) throws EOFException {
    return list(bytes, from + behind, to);
  }

  long length() {
    return to - from;
  }
}

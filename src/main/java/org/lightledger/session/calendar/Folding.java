package org.lightledger.session.calendar;

/** Folds the lines of a calendar file (RFC 5545, section 3.1). */
final class Folding {
  private static final int MOST_OCTETS = 75;
  private static final String BREAK = "\r\n";

  private Folding() {}

  /** No line longer than 75 octets of UTF-8, and no character cut in two. */
  static String fold(String text) {
    StringBuilder folded = new StringBuilder(text.length() + text.length() / MOST_OCTETS * 3);
    int octets = 0;
    for (int i = 0; i < text.length(); ) {
      int point = text.codePointAt(i);
      i += Character.charCount(point);
      if (point == '\n' || point == '\r') {
        octets = 0;
      } else {
        int length = octets(point);
        if (octets + length > MOST_OCTETS) {
          folded.append(BREAK).append(' ');
          octets = 1;
        }
        octets += length;
      }
      folded.appendCodePoint(point);
    }
    return folded.toString();
  }

  private static int octets(int point) {
    if (point < 0x80) {
      return 1;
    }
    if (point < 0x800) {
      return 2;
    }
    return point < 0x10000 ? 3 : 4;
  }
}

package org.lightledger.session;

/** What every text of a session must be. */
final class Texts {
  private static final int LONGEST_LINE = 200;

  private Texts() {}

  /** One line that is not blank, without control characters. */
  static void line(String what, String text) {
    if (text.isBlank()) {
      throw new IllegalArgumentException("expected " + what + ", found nothing");
    }
    if (text.length() > LONGEST_LINE) {
      throw new IllegalArgumentException(
          "expected "
              + what
              + " of at most "
              + LONGEST_LINE
              + " characters, found "
              + text.length());
    }
    if (text.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException(
          "expected " + what + " on one line, found a line break or another control character");
    }
  }

  /** A whole number within bounds. */
  static void within(String what, int value, int least, int most) {
    if (value < least || value > most) {
      throw new IllegalArgumentException(
          "expected " + what + " from " + least + " to " + most + ", found " + value);
    }
  }
}

package org.lightledger.shot.exif;

import org.jspecify.annotations.Nullable;

/**
 * A TIFF rational as written. A denominator of 0 is no number, whatever the numerator: 0/0 is how
 * cameras write "unknown", and must not become 0.
 */
record Ratio(long numerator, long denominator) {

  /** The quotient, or null when the denominator is 0. */
  @Nullable Double value() {
    return denominator == 0 ? null : (double) numerator / denominator;
  }

  /** The quotient when it is greater than 0, else null. */
  @Nullable Double positiveValue() {
    Double value = value();
    return value != null && value > 0 ? value : null;
  }

  @Override
  public String toString() {
    return numerator + "/" + denominator;
  }
}

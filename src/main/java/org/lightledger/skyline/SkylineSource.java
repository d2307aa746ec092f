package org.lightledger.skyline;

/** Where a value of a skyline comes from. */
public enum SkylineSource {
  /** Nowhere: nothing is known in this direction, and a level horizon stands in. */
  NOT_KNOWN(0),
  /** An elevation model. */
  TERRAIN(1),
  /** A building with a height. */
  BUILDING(2),
  /** A tree row or a wood with a height. */
  TREES(3),
  /** Measured by hand at the spot. */
  MEASURED(4),
  /** Proven by a shot that shows direct sun or shade. */
  SHOT(5);

  /** Codes are given in order, from 0. */
  private static final SkylineSource[] BY_CODE = values();

  private final byte code;

  SkylineSource(int code) {
    this.code = (byte) code;
  }

  /** The number that stands for the source in stored bytes; never given to another source. */
  byte code() {
    return code;
  }

  static SkylineSource ofCode(byte code) {
    requireCode(code);
    return BY_CODE[code];
  }

  static void requireCode(byte code) {
    if (code < 0 || code >= BY_CODE.length) {
      throw new IllegalArgumentException(
          "expected a skyline source from 0 to 5, found " + code + "; recompute the skyline");
    }
  }
}

package org.lightledger.skyline;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;

/** What limits a value of a skyline. */
public enum SkylineFlag {
  /** The ray left the known elevation before it was far enough: higher land may follow. */
  LEFT_KNOWN_ELEVATION(1, true),
  /** The ray crossed posts without a height: something may stand there. */
  CROSSED_VOID(2, true),
  /** No elevation was looked at: the land may be higher. */
  NO_TERRAIN(4, true),
  /** A shot proves shade: the skyline is at least this high. */
  AT_LEAST(8, true),
  /** A shot proves direct sun: the skyline is at most this high. */
  AT_MOST(16, false),
  /** The place lies inside an outline that was left out: something may stand over it. */
  PERHAPS_COVERED(32, true);

  private final byte bit;
  private final boolean lowerBound;

  SkylineFlag(int bit, boolean lowerBound) {
    this.bit = (byte) bit;
    this.lowerBound = lowerBound;
  }

  /**
   * Tells whether a value so marked is a lower bound, not a skyline.
   *
   * @return true when the truth may be higher
   */
  public boolean lowerBound() {
    return lowerBound;
  }

  byte bit() {
    return bit;
  }

  static byte bits(Set<SkylineFlag> flags) {
    byte bits = 0;
    for (SkylineFlag flag : flags) {
      bits |= flag.bit;
    }
    return bits;
  }

  static Set<SkylineFlag> ofBits(byte bits) {
    EnumSet<SkylineFlag> flags = EnumSet.noneOf(SkylineFlag.class);
    for (SkylineFlag flag : values()) {
      if ((bits & flag.bit) != 0) {
        flags.add(flag);
      }
    }
    return Collections.unmodifiableSet(flags);
  }
}

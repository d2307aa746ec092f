package org.lightledger.scenario;

import java.util.Locale;

/** What is wrong with a sample file on purpose, so that an import has something to answer for. */
enum Fault {
  /** No offset from UTC: the zone follows from the place. */
  NO_OFFSET,

  /** No position at all. */
  NO_POSITION,

  /** No direction. */
  NO_DIRECTION,

  /** The direction is magnetic, not true. */
  MAGNETIC_DIRECTION,

  /** The position is 0, 0. */
  ZERO_POSITION,

  /** The camera's clock is twelve hours slow and its local time never was: spring clock change. */
  LOCAL_TIME_SKIPPED,

  /** The camera's clock is twelve hours slow and its local time was twice: autumn clock change. */
  LOCAL_TIME_TWICE,

  /** A byte-for-byte copy of another file. */
  EXACT_COPY,

  /** Named like a picture, but its bytes are none. */
  NOT_A_PICTURE;

  /** The fault as the truth file writes it. */
  String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}

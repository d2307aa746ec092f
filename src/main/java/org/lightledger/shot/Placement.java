package org.lightledger.shot;

import java.time.Instant;

/** Where a shot was taken, told by its time alone; or why its time does not tell. */
public sealed interface Placement {

  /**
   * A place was found.
   *
   * @param position where, how it is known, and how far off it can be
   * @param basis what it was taken from
   */
  record Placed(Shot.Position position, Basis basis) implements Placement {}

  /**
   * No place is told.
   *
   * @param reason why, in a closed list
   * @param message one sentence for the owner
   */
  record Refused(Reason reason, String message) implements Placement {}

  /** What a place was taken from. */
  sealed interface Basis {}

  /**
   * The moment lies between two known places, or on one (then both are the same).
   *
   * @param before when the earlier of the two was
   * @param after when the later of the two was
   */
  record Between(Instant before, Instant after) implements Basis {}

  /**
   * The moment lies outside; the nearest known place was taken.
   *
   * @param at when that place was known
   */
  record Nearest(Instant at) implements Basis {}

  /** Why a time does not tell a place. */
  enum Reason {
    /** Nothing is known of any time. */
    NOTHING_KNOWN,
    /** The moment lies before everything known. */
    TOO_EARLY,
    /** The moment lies after everything known. */
    TOO_LATE,
    /** The moment lies in a gap that lasts too long. */
    GAP_TOO_LONG,
    /** The moment lies in a gap that spans too many metres. */
    GAP_TOO_WIDE,
    /** What is known contradicts itself. */
    DISAGREEMENT
  }
}

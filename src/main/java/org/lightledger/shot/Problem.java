package org.lightledger.shot;

/**
 * Something about a file that the owner should know: what was found, what was expected, what to do.
 *
 * @param kind what it is about, in a closed list
 * @param message one sentence for the owner, without private paths
 */
public record Problem(Kind kind, String message) {

  /** What a problem is about, and whether the shot can be used all the same. */
  public enum Kind {
    /** The file could not be read at all. */
    UNREADABLE,
    /** The format is known but not read yet. */
    FORMAT_NOT_READ,
    /** No usable capture time. */
    TIME_MISSING,
    /** More than one instant fits the capture time. */
    TIME_AMBIGUOUS,
    /** Two pieces of evidence about the time disagree; one was used. */
    TIME_CONTRADICTED,
    /** No position. */
    POSITION_MISSING,
    /** A position was written but can not be true. */
    POSITION_REFUSED,
    /** Two pieces of evidence about the position disagree; one was used. */
    POSITION_CONTRADICTED,
    /** No direction of view. */
    DIRECTION_MISSING,
    /** A direction was written but can not be used as a true bearing. */
    DIRECTION_REFUSED,
    /** Two pieces of evidence about the direction disagree; one was used. */
    DIRECTION_CONTRADICTED,
    /** Something was taken from a sidecar file. */
    SIDECAR_USED,
    /** The exposure is incomplete or impossible. */
    EXPOSURE_INCOMPLETE,
    /** A part of the metadata is damaged; the rest was read. */
    METADATA_DAMAGED;

    /**
     * Whether a shot with this problem waits for the owner before it can serve a spot.
     *
     * @return true when time or place is missing or doubtful
     */
    public boolean needsAttention() {
      return switch (this) {
        case UNREADABLE,
            FORMAT_NOT_READ,
            TIME_MISSING,
            TIME_AMBIGUOUS,
            POSITION_MISSING,
            POSITION_REFUSED ->
            true;
        case TIME_CONTRADICTED,
            POSITION_CONTRADICTED,
            DIRECTION_CONTRADICTED,
            SIDECAR_USED,
            DIRECTION_MISSING,
            DIRECTION_REFUSED,
            EXPOSURE_INCOMPLETE,
            METADATA_DAMAGED ->
            false;
      };
    }
  }
}

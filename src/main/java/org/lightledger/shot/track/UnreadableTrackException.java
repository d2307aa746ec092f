package org.lightledger.shot.track;

/** A file that is no track log, or one that is not safe to read. */
public final class UnreadableTrackException extends Exception {
  private static final long serialVersionUID = 1L;

  UnreadableTrackException(String message) {
    super(message);
  }
}

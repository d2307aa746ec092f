package org.lightledger.surroundings;

/** Says which elevation can not be read and what to do. */
public final class UnreadableElevationException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  UnreadableElevationException(String message) {
    super(message);
  }
}

package org.lightledger.exchange;

import org.jspecify.annotations.Nullable;

/** A file whose spots can not be read at all. The message says what was found and what to do. */
public final class UnreadableSpotsException extends Exception {
  private static final long serialVersionUID = 1L;

  /**
   * Refuses a file.
   *
   * @param message what was found, what was expected, what to do
   */
  public UnreadableSpotsException(String message) {
    this(message, null);
  }

  /**
   * Refuses a file.
   *
   * @param message what was found, what was expected, what to do
   * @param cause what went wrong, or null
   */
  public UnreadableSpotsException(String message, @Nullable Throwable cause) {
    super(message, cause);
  }
}

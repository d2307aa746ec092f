package org.lightledger.correction;

/** A shot can not be corrected so; the message says why and what to do, for the owner. */
final class RefusedException extends Exception {
  private static final long serialVersionUID = 1L;

  RefusedException(String message) {
    super(message, null, false, false);
  }

  String reason() {
    return String.valueOf(getMessage());
  }
}

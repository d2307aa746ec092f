package org.lightledger.session.mail;

import org.jspecify.annotations.Nullable;

/** A message could not be made or sent. The message says what was found and what to do. */
public final class MailException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  MailException(String message, @Nullable Throwable cause) {
    super(message, cause);
  }
}

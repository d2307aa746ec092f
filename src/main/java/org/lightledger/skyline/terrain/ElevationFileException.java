package org.lightledger.skyline.terrain;

import java.io.IOException;

/** An elevation file that can not be used; the message says what was found and what to do. */
public final class ElevationFileException extends IOException {
  private static final long serialVersionUID = 1L;

  ElevationFileException(String message) {
    super(message);
  }

  ElevationFileException(String message, Throwable cause) {
    super(message, cause);
  }
}

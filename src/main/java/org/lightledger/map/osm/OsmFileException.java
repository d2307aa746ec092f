package org.lightledger.map.osm;

import java.io.IOException;
import org.jspecify.annotations.Nullable;

/** A file that is no sound OpenStreetMap extract; the message says what to do. */
public final class OsmFileException extends IOException {
  private static final long serialVersionUID = 1L;

  OsmFileException(String message) {
    this(message, null);
  }

  OsmFileException(String message, @Nullable Throwable cause) {
    super(message, cause);
  }
}

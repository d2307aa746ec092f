package org.lightledger.sun;

/** How the sun keeps to an altitude during a stretch of time. */
public enum SunState {
  /** It stays at or above it. */
  ALWAYS_UP,
  /** It stays below it. */
  ALWAYS_DOWN,
  /** It crosses it at least once. */
  CROSSES
}

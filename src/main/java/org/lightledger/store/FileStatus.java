package org.lightledger.store;

/** What became of a file that an import met. */
public enum FileStatus {
  /** It was read, and a shot came of it. */
  READ,
  /** Its format is known but not read yet. */
  FORMAT_NOT_READ,
  /** It could not be read; its problems say why. */
  UNREADABLE
}

package org.lightledger.field;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Something that was done on the phone, and what became of it in the ledger. The phone names it, so
 * that an entry that is sent again is answered as it was the first time and changes nothing.
 *
 * @param uuid its name, made by the phone
 * @param kind what it is
 * @param madeAt when it was made, by the phone's clock
 * @param receivedAt when the ledger took it in
 * @param outcome what became of it
 * @param said what was said on the phone, in words
 * @param told what the phone is told, in words
 * @param shotId the shot it belongs to, or null
 */
public record FieldEntry(
    UUID uuid,
    Kind kind,
    Instant madeAt,
    Instant receivedAt,
    Outcome outcome,
    String said,
    String told,
    @Nullable Long shotId) {

  /** What an entry can be. */
  public enum Kind {
    /** A scouting shot, with or without a word on the sun. */
    SHOT,
    /** A thing that was packed, or a tick that was taken back. */
    TICK
  }

  /** What can become of it. */
  public enum Outcome {
    /** The shot is new in the ledger. */
    ADDED,
    /** The ledger had the shot already. */
    KNOWN,
    /** The tick counts. */
    TAKEN,
    /** A later word counts; this one is kept beside it. */
    SUPERSEDED,
    /** What it is about is no longer there; the word is kept. */
    GONE
  }
}

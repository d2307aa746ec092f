package org.lightledger.session;

import java.time.Instant;

/**
 * What went out, as it went out.
 *
 * @param kind what it was
 * @param way how it left
 * @param to the address, "" when it was copied
 * @param subject its subject
 * @param body its text
 * @param at when
 */
public record SentMessage(
    MessageKind kind, Way way, String to, String subject, String body, Instant at) {

  /** How a message left the ledger. */
  public enum Way {
    /** The owner copied the text. */
    COPIED("copied"),
    /** The owner took a draft for a mail program. */
    DRAFT("taken as a draft"),
    /** It was handed to the owner's mail server. */
    MAIL("sent by mail");

    private final String label;

    Way(String label) {
      this.label = label;
    }

    /**
     * The words on screens.
     *
     * @return for example "sent by mail"
     */
    public String label() {
      return label;
    }
  }
}

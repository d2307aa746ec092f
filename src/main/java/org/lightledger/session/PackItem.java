package org.lightledger.session;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * One thing to pack or to see to before a session.
 *
 * @param id the ledger's number of it, 0 before it has one
 * @param words what it is
 * @param doneAt when it was ticked, or null when it is open
 */
public record PackItem(long id, String words, @Nullable Instant doneAt) {
  /** Checks the words. */
  public PackItem {
    Texts.line("a thing to pack", words);
  }
}

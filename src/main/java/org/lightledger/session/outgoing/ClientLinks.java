package org.lightledger.session.outgoing;

import org.jspecify.annotations.Nullable;

/**
 * The pages that a client of a session can open.
 *
 * @param questions the address where the owner's questions can be answered, or null for none
 * @param plan the address where the plan can be seen, or null for none
 */
public record ClientLinks(@Nullable String questions, @Nullable String plan) {
  /** Nothing is open. */
  public static final ClientLinks NONE = new ClientLinks(null, null);
}

package org.lightledger.access;

import java.util.Optional;
import org.lightledger.store.LedgerSession;

/** The owner's password as the ledger keeps it: among the settings, and only as a hash. */
public final class OwnerPassword {
  private static final String NAME = "owner.password";

  private OwnerPassword() {}

  /**
   * What is kept.
   *
   * @param session a session of the ledger
   * @return the text of a {@link PasswordHash}, or nothing when no password is set
   */
  public static Optional<String> of(LedgerSession session) {
    return session.settings().find(NAME);
  }

  /**
   * Sets or changes the password. Whoever is logged in with another one is logged out by it.
   *
   * @param session a session that may write
   * @param hash the hash of the password
   */
  public static void set(LedgerSession session, PasswordHash hash) {
    session.settings().set(NAME, hash.text());
  }

  /**
   * Removes the password.
   *
   * @param session a session that may write
   */
  public static void remove(LedgerSession session) {
    session.settings().remove(NAME);
  }
}

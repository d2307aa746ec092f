package org.lightledger.store;

/**
 * What to do in one transaction.
 *
 * @param <T> what comes out of it
 */
@FunctionalInterface
public interface LedgerWork<T> {
  /**
   * Does it.
   *
   * @param session the stores, good until this method returns and for this thread only
   * @return what comes out of it
   */
  T in(LedgerSession session);
}

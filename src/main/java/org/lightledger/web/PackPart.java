package org.lightledger.web;

import java.util.List;

/**
 * What is packed for a session.
 *
 * @param sessionId the session
 * @param items in the owner's order
 * @param typed a thing that was typed in vain, "" for none
 * @param said how much is packed, in words
 */
public record PackPart(long sessionId, List<Item> items, String typed, String said) {

  /**
   * A thing.
   *
   * @param id the ledger's number of it
   * @param words what it is
   * @param done whether it is ticked
   */
  public record Item(long id, String words, boolean done) {}
}

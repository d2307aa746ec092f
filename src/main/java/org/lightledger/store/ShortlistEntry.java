package org.lightledger.store;

import org.lightledger.shortlist.Shortlist;

/**
 * An entry of a shortlist with the number by which it can be changed, whatever its place.
 *
 * @param id the ledger's number of the entry
 * @param entry what is proposed
 */
public record ShortlistEntry(long id, Shortlist.Entry entry) {}

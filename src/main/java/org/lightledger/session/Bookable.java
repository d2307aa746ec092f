package org.lightledger.session;

/**
 * A package that a client can book.
 *
 * @param id the ledger's number of it, 0 before it has one
 * @param terms what it holds
 */
public record Bookable(long id, Terms terms) {}

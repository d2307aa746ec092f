package org.lightledger.store;

/**
 * Something wrong with a ledger's file.
 *
 * @param found what was found
 * @param expected what was expected
 * @param remedy what to do
 */
public record Finding(String found, String expected, String remedy) {}

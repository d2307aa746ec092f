package org.lightledger.web;

/**
 * A box to tick in a form that tells what it showed.
 *
 * @param code what it is called in the form
 * @param label what it is called
 * @param picked whether it is ticked, as kept or as it was sent
 * @param kept whether it is ticked in what is kept
 */
public record TickBox(String code, String label, boolean picked, boolean kept) {}

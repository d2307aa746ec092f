package org.lightledger.web;

/**
 * A spot has been put on a shortlist.
 *
 * @param id the shortlist
 * @param title its title
 */
public record Kept(long id, String title) {}

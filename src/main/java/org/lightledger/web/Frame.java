package org.lightledger.web;

import org.jspecify.annotations.Nullable;

/**
 * What surrounds every page of the owner.
 *
 * @param title the page's title
 * @param room which room of the house is open
 * @param assets the addresses of style sheets and scripts
 * @param attention how many shots wait for the owner
 * @param news through how many shares something came back that the owner has not read
 * @param map what lies under places on a map, or null when the ledger has no map
 * @param loggedIn whether the owner has logged in and can log out
 */
public record Frame(
    String title,
    Room room,
    Assets assets,
    int attention,
    int news,
    @Nullable BaseMap map,
    boolean loggedIn) {

  /** The rooms of the navigation. */
  public enum Room {
    /** The question. */
    ASK,
    /** The stock of spots. */
    SPOTS,
    /** What is due. */
    TODAY,
    /** Sessions with clients. */
    SESSIONS,
    /** Shortlists for clients. */
    SHORTLISTS,
    /** Imports. */
    IMPORT,
    /** What clients sent back. */
    REPLIES,
    /** Shots that wait for the owner. */
    ATTENTION,
    /** A page that none of them leads to. */
    NONE
  }

  /**
   * The mark of the open room for screen readers and style sheet.
   *
   * @param link a room of the navigation
   * @return "page" when it is the open one, else null, which leaves the attribute out
   */
  public @Nullable String current(Room link) {
    return link == room ? "page" : null;
  }
}

package org.lightledger.web;

import java.util.List;

/**
 * The shots of a session that has been.
 *
 * @param stops its stops with their shots
 * @param elsewhere shots of its hours that lie at no stop
 * @param said what was found, in words
 */
public record AfterPart(List<Stop> stops, List<Shot> elsewhere, String said) {

  /**
   * A stop.
   *
   * @param href the spot's page
   * @param name the spot's name
   * @param shots its shots
   */
  public record Stop(String href, String name, List<Shot> shots) {}

  /**
   * A shot.
   *
   * @param id the ledger's number of it
   * @param when when it was taken
   */
  public record Shot(long id, String when) {}
}

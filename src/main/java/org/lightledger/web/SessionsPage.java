package org.lightledger.web;

import java.util.List;

/**
 * All sessions.
 *
 * @param coming those to come, soonest first
 * @param past those that have been or were cancelled, latest first
 * @param clients whether there is a client to book for
 */
public record SessionsPage(List<Row> coming, List<Row> past, boolean clients) {

  /**
   * A session.
   *
   * @param href its page
   * @param title who and when
   * @param words hours, package and number of spots
   * @param state how far it is
   */
  public record Row(String href, String title, String words, String state) {}
}

package org.lightledger.web;

import java.util.List;

/**
 * The form of a new session, or of one whose day or terms change.
 *
 * @param id the session's number, 0 for a new one
 * @param title the page's title
 * @param form what it holds
 * @param clients whom one can book for
 * @param packages what one can book
 * @param sunset what the sun does on the day, "" while no day is chosen
 * @param problems what was wrong
 */
public record SessionFormPage(
    long id,
    String title,
    SessionForm form,
    List<AskPage.ListChoice> clients,
    List<AskPage.ListChoice> packages,
    String sunset,
    List<FieldProblem> problems) {

  /**
   * Where the form goes.
   *
   * @return an address
   */
  public String action() {
    return id == 0 ? "/sessions" : "/sessions/" + id;
  }

  /**
   * Where the form is shown anew, with the sunset of another day.
   *
   * @return an address
   */
  public String again() {
    return id == 0 ? "/sessions/new" : "/sessions/" + id + "/edit";
  }
}

package org.lightledger.web;

import java.util.List;

/**
 * What is due now.
 *
 * @param date today, in words
 * @param sessions the sessions for which something is due, in order of their dates
 * @param next the sessions to come, soonest first
 */
public record TodayPage(String date, List<Session> sessions, List<SessionsPage.Row> next) {

  /**
   * A session.
   *
   * @param href its page
   * @param title who and when
   * @param when how far away it is and from when to when, in words
   * @param tasks what is due
   */
  public record Session(String href, String title, String when, List<Task> tasks) {}

  /**
   * Something due.
   *
   * @param href where it is done
   * @param what what it is
   * @param since since when it is due
   * @param late whether it should have been done before today
   */
  public record Task(String href, String what, String since, boolean late) {}
}

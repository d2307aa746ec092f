package org.lightledger.web;

import java.util.List;

/**
 * What became of a file of spots that was sent.
 *
 * @param headline the counts in words, "" when none was sent
 * @param refusal why nothing of it could be taken over, "" when something was
 * @param rows features of which there is something to say
 * @param hidden how many more there are, in words, "" for none
 */
public record ExchangeView(String headline, String refusal, List<Row> rows, String hidden) {
  /** No file was sent. */
  static final ExchangeView NOTHING = new ExchangeView("", "", List.of(), "");

  /**
   * A feature, or a remark on the whole file.
   *
   * @param name the spot's name, or which feature it is
   * @param href the spot's page, "" for none
   * @param words what is to be said of it
   */
  public record Row(String name, String href, String words) {}

  /**
   * Whether a file was sent.
   *
   * @return true when there is something to show
   */
  public boolean sent() {
    return !headline.isEmpty() || !refusal.isEmpty();
  }
}

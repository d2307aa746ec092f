package org.lightledger.web;

import java.util.List;

/**
 * When a spot lets people in, and how long drives from it take.
 *
 * @param opens when it opens, "" for at any time
 * @param closes when it closes
 * @param drives the owner's minutes
 * @param others spots to tell minutes to, nearest first
 * @param minutes minutes as they were typed in vain
 */
public record TravelView(
    String opens,
    String closes,
    List<Drive> drives,
    List<AskPage.ListChoice> others,
    String minutes) {

  /**
   * A drive.
   *
   * @param from the number of the spot it starts at
   * @param to the number of the spot it ends at
   * @param words from where to where, and how long
   */
  public record Drive(long from, long to, String words) {}
}

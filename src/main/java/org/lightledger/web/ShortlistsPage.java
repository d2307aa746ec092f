package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * All shortlists.
 *
 * @param lists the shortlists, newest first
 * @param problems what was wrong with the form
 */
public record ShortlistsPage(List<Row> lists, List<FieldProblem> problems) {

  /**
   * A shortlist.
   *
   * @param href its page
   * @param title its title
   * @param spots how many spots it proposes, in words
   * @param shared how many links and files work, in words
   * @param cover its first picture, or null
   */
  public record Row(
      String href, String title, String spots, String shared, @Nullable String cover) {}
}

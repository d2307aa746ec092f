package org.lightledger.web;

import gg.jte.Content;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the client's page shows.
 *
 * @param css the style sheet, part of the page
 * @param title the owner's title
 * @param message the owner's words, "" for none
 * @param spots the places
 * @param preview whether the owner looks at it beforehand
 * @param count how many places there are, in words, "" for none
 */
public record ShareView(
    String css, String title, String message, List<Spot> spots, boolean preview, String count) {

  /**
   * The style sheet as an element. It is the project's own file, so it is written as it stands.
   *
   * @return a style element
   */
  public Content style() {
    return style(css);
  }

  /**
   * A style sheet as an element.
   *
   * @param css the project's own style sheet
   * @return a style element
   */
  public static Content style(String css) {
    return output -> output.writeContent("<style>" + css + "</style>");
  }

  /** A place. */
  public record Spot(
      String number,
      String name,
      String words,
      String hour,
      String light,
      List<String> hazards,
      String cautions,
      @Nullable String picture,
      @Nullable Place place) {}

  /** Where a place lies: in words, and as an address that a phone opens in its map. */
  public record Place(String words, String href) {}
}

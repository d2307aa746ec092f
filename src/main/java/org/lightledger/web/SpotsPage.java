package org.lightledger.web;

import java.util.List;
import org.lightledger.web.chart.Svg;

/**
 * The stock of spots.
 *
 * @param headline how many spots are shown
 * @param words the text searched for
 * @param only which kind of spot is shown
 * @param kinds the kinds to choose from
 * @param spots the spots
 * @param emptyStock whether the ledger holds no spot at all
 * @param gone the spots that the owner deleted
 * @param exchanged what became of a file of spots
 */
public record SpotsPage(
    String headline,
    String words,
    String only,
    List<Kind> kinds,
    List<Row> spots,
    boolean emptyStock,
    List<Gone> gone,
    ExchangeView exchanged) {

  /** A deleted spot; whether just now. */
  public record Gone(long id, String name, String shots, boolean justNow) {}

  /** A kind of spot to filter by. */
  public record Kind(String code, String label, boolean picked) {}

  /**
   * One spot.
   *
   * @param id its number
   * @param href its page
   * @param name its name
   * @param area its area, "" for none
   * @param facings its facings in words
   * @param shots how many shots it has, in words
   * @param noted whether cautions are noted
   * @param dial its facings as a drawing
   * @param lat latitude for the map, degrees
   * @param lon longitude
   * @param wedges bearings and spreads for the map
   */
  public record Row(
      long id,
      String href,
      String name,
      String area,
      String facings,
      String shots,
      boolean noted,
      Svg dial,
      String lat,
      String lon,
      String wedges) {}
}

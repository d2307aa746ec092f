package org.lightledger.web;

import java.util.List;

/**
 * The skyline that the owner measured at a spot.
 *
 * @param rows the readings, and empty rows for more
 * @param list readings as a list, as they were sent when something was wrong
 * @param readings how many there are, in words, "" for none
 * @param north where a compass needle points here, in words, "" when that is not known
 * @param saved whether they have just been saved
 */
public record MeasuredView(
    List<Row> rows, String list, String readings, String north, boolean saved) {

  /** A reading as it stands in the form. */
  public record Row(String azimuth, String altitude) {}
}

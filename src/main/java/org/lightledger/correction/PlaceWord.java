package org.lightledger.correction;

import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.PlacesByTime;

/** What the owner says about where shots were taken. */
public sealed interface PlaceWord {

  /**
   * What it is, for the list of corrections.
   *
   * @return a few words
   */
  String words();

  /**
   * Here.
   *
   * @param point the place
   */
  record Point(GeoPoint point) implements PlaceWord {
    @Override
    public String words() {
      return "placed by hand";
    }
  }

  /**
   * Where a track log says the photographer was.
   *
   * @param places the log
   */
  record Track(PlacesByTime places) implements PlaceWord {
    @Override
    public String words() {
      return "placed by a track log";
    }
  }

  /** Where the owner's other shots of the same minutes were taken. */
  record Nearby() implements PlaceWord {
    @Override
    public String words() {
      return "placed by other shots of the same minutes";
    }
  }
}

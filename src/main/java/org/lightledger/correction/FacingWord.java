package org.lightledger.correction;

import org.lightledger.geo.Bearing;

/** What the owner says about which way shots look. */
public sealed interface FacingWord {

  /**
   * What it is, for the list of corrections.
   *
   * @return a few words
   */
  String words();

  /**
   * That way.
   *
   * @param bearing true bearing of the line of view
   */
  record Looked(Bearing bearing) implements FacingWord {
    @Override
    public String words() {
      return "direction given";
    }
  }

  /**
   * As the sun or a shadow in the picture tells.
   *
   * @param taps what was tapped
   */
  record Tapped(Taps taps) implements FacingWord {
    @Override
    public String words() {
      return taps instanceof Taps.Sun
          ? "direction told by the sun in the picture"
          : "direction told by a shadow in the picture";
    }
  }
}

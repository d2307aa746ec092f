package org.lightledger.web.chart;

/** Stands where a picture can not be shown. */
public final class PlainCard {
  private PlainCard() {}

  /**
   * Draws the card.
   *
   * @return a whole SVG document
   */
  public static Svg draw() {
    return new Svg(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"480\" height=\"360\" viewBox=\"0 0 480"
            + " 360\"><rect width=\"480\" height=\"360\" fill=\"#c9cfd2\"/><path d=\"M160 120h160v120H160z\""
            + " fill=\"none\" stroke=\"#4b555b\" stroke-width=\"4\"/><path d=\"M160 240L320 120\""
            + " stroke=\"#4b555b\" stroke-width=\"4\"/><text x=\"240\" y=\"285\" text-anchor=\"middle\""
            + " font-family=\"sans-serif\" font-size=\"20\" fill=\"#2c363c\">no picture to show</text>"
            + "</svg>");
  }
}

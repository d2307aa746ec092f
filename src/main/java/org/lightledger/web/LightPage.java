package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.web.chart.Svg;

/**
 * What each light means.
 *
 * @param ring the lights around a subject
 * @param rows one line for each light
 */
public record LightPage(Svg ring, List<Row> rows) {

  /** A light: its sign, its word, the rule, and what it does to a face. */
  public record Row(Svg glyph, String word, String rule, String look) {}

  static List<Row> rows(Function<LightClass, Svg> glyphs) {
    List<Row> rows = new ArrayList<>();
    for (LightClass light : LightClass.values()) {
      rows.add(
          new Row(glyphs.apply(light), Words.capital(light.label()), rule(light), look(light)));
    }
    return rows;
  }

  private static String rule(LightClass light) {
    return switch (light) {
      case BACKLIT -> turn(0, LightRules.BACKLIT_UP_TO_DEG);
      case RIM -> turn(LightRules.BACKLIT_UP_TO_DEG, LightRules.RIM_UP_TO_DEG);
      case SIDE -> turn(LightRules.RIM_UP_TO_DEG, LightRules.SIDE_UP_TO_DEG);
      case THREE_QUARTER_FRONT ->
          turn(LightRules.SIDE_UP_TO_DEG, LightRules.THREE_QUARTER_FRONT_UP_TO_DEG);
      case FRONT -> turn(LightRules.THREE_QUARTER_FRONT_UP_TO_DEG, 180);
      case OVERHEAD -> say("the sun higher than %.0f°", LightRules.OVERHEAD_ABOVE_DEG);
      case OPEN_SHADE -> "the sun up, but behind the skyline of the spot";
      case TWILIGHT ->
          say("the sun below the horizon, down to %.0f°", -LightRules.TWILIGHT_DOWN_TO_DEG);
      case DARK ->
          say("the sun more than %.0f° below the horizon", -LightRules.TWILIGHT_DOWN_TO_DEG);
    };
  }

  private static String turn(double fromDeg, double toDeg) {
    return say("%.0f° to %.0f° from the line of view, either side", fromDeg, toDeg);
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  private static String look(LightClass light) {
    return switch (light) {
      case BACKLIT -> "The face in soft shade, an edge of light around hair and shoulders.";
      case RIM -> "One bright edge from behind; the face still in shade.";
      case SIDE -> "Half the face lit, half in shade: shape and texture.";
      case THREE_QUARTER_FRONT -> "Most of the face lit, a little shade for depth.";
      case FRONT -> "The whole face lit, few shadows; subjects may squint.";
      case OVERHEAD -> "Shade in the eyes, whichever way you turn.";
      case OPEN_SHADE -> "Soft light from the open sky, no hard edges.";
      case TWILIGHT -> "Soft light from the sky alone, fading fast.";
      case DARK -> "Too little sky light to work by.";
    };
  }
}

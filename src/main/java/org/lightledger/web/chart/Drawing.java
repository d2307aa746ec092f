package org.lightledger.web.chart;

import java.util.Locale;

/** Writes SVG elements. Colours come from the style sheet by class, never from attributes. */
final class Drawing {
  private final StringBuilder out = new StringBuilder(2048);

  private Drawing() {}

  /** A drawing that stands beside its own words, so screen readers pass over it. */
  static Drawing decorative(String cssClass, double width, double height) {
    Drawing drawing = new Drawing();
    drawing.out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"%s\" viewBox=\"0 0 %s %s\" aria-hidden=\"true\" focusable=\"false\">",
            cssClass,
            number(width),
            number(height)));
    return drawing;
  }

  /**
   * A drawing with words for screen readers.
   *
   * @param role "img", or "group" when the drawing holds links
   */
  static Drawing described(
      String cssClass, double width, double height, String role, String id, Words words) {
    Drawing drawing = new Drawing();
    drawing.out.append(
        String.format(
            Locale.ROOT,
            "<svg class=\"%s\" viewBox=\"0 0 %s %s\" role=\"%s\""
                + " aria-labelledby=\"%s-title %s-desc\">"
                + "<title id=\"%s-title\">%s</title><desc id=\"%s-desc\">%s</desc>",
            cssClass,
            number(width),
            number(height),
            role,
            id,
            id,
            id,
            escape(words.title()),
            id,
            escape(words.description())));
    return drawing;
  }

  /** What a screen reader says for a drawing. */
  record Words(String title, String description) {}

  Drawing line(String cssClass, double x1, double y1, double x2, double y2) {
    out.append("<line class=\"").append(cssClass).append('"');
    attribute("x1", x1).attribute("y1", y1).attribute("x2", x2).attribute("y2", y2);
    out.append("/>");
    return this;
  }

  Drawing circle(String cssClass, double x, double y, double radius) {
    out.append("<circle class=\"").append(cssClass).append('"');
    attribute("cx", x).attribute("cy", y).attribute("r", radius);
    out.append("/>");
    return this;
  }

  Drawing rect(String cssClass, double x, double y, double width, double height) {
    out.append("<rect class=\"").append(cssClass).append('"');
    attribute("x", x).attribute("y", y).attribute("width", width).attribute("height", height);
    out.append("/>");
    return this;
  }

  Drawing path(String cssClass, String data) {
    out.append("<path class=\"").append(cssClass).append("\" d=\"").append(data).append("\"/>");
    return this;
  }

  /**
   * A square tile of lines that {@link #patterned} fills areas with.
   *
   * @param id unique in the page
   */
  Drawing pattern(String id, double size, String cssClass, String data) {
    out.append("<defs><pattern patternUnits=\"userSpaceOnUse\" id=\"").append(id).append('"');
    attribute("width", size).attribute("height", size);
    out.append("><path class=\"").append(cssClass).append("\" d=\"").append(data);
    out.append("\"/></pattern></defs>");
    return this;
  }

  /** An area filled with the tile of an id. */
  Drawing patterned(String patternId, String data) {
    out.append("<path fill=\"url(#").append(patternId).append(")\" d=\"").append(data);
    out.append("\"/>");
    return this;
  }

  /** Text whose anchor is "start", "middle" or "end". */
  Drawing text(String cssClass, double x, double y, String anchor, String text) {
    out.append("<text class=\"").append(cssClass).append('"');
    attribute("x", x).attribute("y", y);
    out.append(" text-anchor=\"").append(anchor).append("\">").append(escape(text));
    out.append("</text>");
    return this;
  }

  /** Opens a link; every link is closed by {@link #endLink()}. */
  Drawing link(String href, String label) {
    out.append("<a href=\"").append(escape(href)).append("\" aria-label=\"");
    out.append(escape(label)).append("\"><title>").append(escape(label)).append("</title>");
    return this;
  }

  Drawing endLink() {
    out.append("</a>");
    return this;
  }

  Svg finish() {
    return new Svg(out.append("</svg>").toString());
  }

  private Drawing attribute(String name, double value) {
    out.append(' ').append(name).append("=\"").append(number(value)).append('"');
    return this;
  }

  /** At most two decimals, with a point, without a needless zero. */
  static String number(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value);
    int end = text.length();
    while (text.charAt(end - 1) == '0') {
      end--;
    }
    if (text.charAt(end - 1) == '.') {
      end--;
    }
    String shortened = text.substring(0, end);
    return shortened.equals("-0") ? "0" : shortened;
  }

  /** One decimal, quickly: for the many points of a path. */
  static double tenths(double value) {
    return Math.round(value * 10) / 10.0;
  }

  static String escape(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;")
        .replace("'", "&#39;");
  }
}

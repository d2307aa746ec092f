package org.lightledger.map.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.Shape;
import java.awt.font.FontRenderContext;
import java.awt.font.GlyphVector;
import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.linearref.LengthIndexedLine;

/** Writes words as outlines with a rim, straight or along a line. */
final class Lettering {
  /** Without hints, so that a word is equally long at every scale and on every machine. */
  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);

  private static final float RIM_PX = 3.0f;
  private static final double FREE_AROUND_PX = 3.0;

  /** How far a line may turn from letter to letter: own choice, about what stays readable. */
  private static final double MOST_TURN_RAD = Math.toRadians(22.0);

  private final Graphics2D graphics;
  private final LabelSpace space;
  private final Color rim;

  Lettering(Graphics2D graphics, LabelSpace space, Color rim) {
    this.graphics = graphics;
    this.space = space;
    this.rim = rim;
  }

  static Font font(int style, double sizePx) {
    return new Font(Font.SANS_SERIF, style, 1).deriveFont((float) sizePx);
  }

  static double widthPx(Font font, String text) {
    return font.createGlyphVector(CONTEXT, text).getLogicalBounds().getWidth();
  }

  /** Lines of words, their middle at a place; false when there is no room. */
  boolean middle(List<String> lines, Font font, Color colour, double xPx, double yPx) {
    Path2D words = new Path2D.Double();
    double stepPx = font.getSize2D() * 1.15;
    double baseline = yPx - stepPx * (lines.size() - 1) / 2.0 + font.getSize2D() * 0.36;
    for (String line : lines) {
      GlyphVector glyphs = font.createGlyphVector(CONTEXT, line);
      double width = glyphs.getLogicalBounds().getWidth();
      words.append(glyphs.getOutline((float) (xPx - width / 2.0), (float) baseline), false);
      baseline += stepPx;
    }
    return write(words, List.of(around(words.getBounds2D())), colour);
  }

  /** Words along a line, from a distance along it on; false when they do not fit. */
  boolean along(LengthIndexedLine line, double fromPx, String text, Font font, Color colour) {
    GlyphVector glyphs = font.createGlyphVector(CONTEXT, text);
    double width = glyphs.getLogicalBounds().getWidth();
    boolean forward = line.extractPoint(fromPx).x <= line.extractPoint(fromPx + width).x;
    Path2D words = new Path2D.Double();
    List<Rectangle2D> boxes = new ArrayList<>();
    double before = Double.NaN;
    for (int i = 0; i < glyphs.getNumGlyphs(); i++) {
      double left = glyphs.getGlyphPosition(i).getX();
      double advance = glyphs.getGlyphPosition(i + 1).getX() - left;
      double at = left + advance / 2.0;
      double along = forward ? fromPx + at : fromPx + width - at;
      double reach = Math.max(advance, font.getSize2D()) / 2.0;
      Coordinate middle = line.extractPoint(along);
      Coordinate behind = line.extractPoint(along - reach);
      Coordinate ahead = line.extractPoint(along + reach);
      double turn = Math.atan2(ahead.y - behind.y, ahead.x - behind.x);
      double angle = forward ? turn : turn + Math.PI;
      if (!Double.isNaN(before)
          && Math.abs(Math.IEEEremainder(angle - before, 2.0 * Math.PI)) > MOST_TURN_RAD) {
        return false;
      }
      before = angle;
      AffineTransform place = AffineTransform.getTranslateInstance(middle.x, middle.y);
      place.rotate(angle);
      place.translate(-left - advance / 2.0, font.getSize2D() * 0.34);
      Shape glyph = place.createTransformedShape(glyphs.getGlyphOutline(i));
      words.append(glyph, false);
      if (!glyph.getBounds2D().isEmpty()) {
        boxes.add(around(glyph.getBounds2D()));
      }
    }
    return write(words, boxes, colour);
  }

  private static Rectangle2D around(Rectangle2D box) {
    return new Rectangle2D.Double(
        box.getX() - FREE_AROUND_PX,
        box.getY() - FREE_AROUND_PX,
        box.getWidth() + 2.0 * FREE_AROUND_PX,
        box.getHeight() + 2.0 * FREE_AROUND_PX);
  }

  private boolean write(Path2D words, List<Rectangle2D> boxes, Color colour) {
    if (!space.isFree(boxes)) {
      return false;
    }
    space.take(boxes);
    graphics.setColor(rim);
    graphics.setStroke(new BasicStroke(RIM_PX, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    graphics.draw(words);
    graphics.setColor(colour);
    graphics.fill(words);
    return true;
  }
}

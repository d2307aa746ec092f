package org.lightledger.web;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Arc2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/**
 * Draws the icons of the installed page: the mark of the pages, on a ground that may be cut to a
 * circle. Run it when the mark changes; it writes them to web/static.
 */
final class FieldIcon {
  private FieldIcon() {}

  static BufferedImage draw(int sizePx) {
    BufferedImage icon = new BufferedImage(sizePx, sizePx, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = icon.createGraphics();
    graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    graphics.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    graphics.scale(sizePx / 40.0, sizePx / 40.0);
    graphics.setColor(new Color(0x14181b));
    graphics.fill(new Rectangle2D.Double(0, 0, 40, 40));
    graphics.translate(20, 20);
    graphics.scale(0.8, 0.8);
    graphics.translate(-20, -18);
    graphics.setColor(new Color(0x5a666d));
    graphics.fill(new Ellipse2D.Double(9, 12, 22, 22));
    graphics.setColor(new Color(0xffcf6b));
    graphics.fill(new Arc2D.Double(9, 12, 22, 22, 0, 180, Arc2D.PIE));
    graphics.setColor(new Color(0xf0a12e));
    graphics.fill(new Ellipse2D.Double(16.6, 3.1, 6.8, 6.8));
    graphics.dispose();
    return icon;
  }

  public static void main(String[] arguments) throws IOException {
    for (int sizePx : new int[] {192, 512}) {
      Path file = Path.of("web", "static", "field-" + sizePx + ".png");
      ImageIO.write(draw(sizePx), "png", file.toFile());
    }
  }
}

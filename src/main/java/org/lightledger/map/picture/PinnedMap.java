package org.lightledger.map.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.util.List;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapView;

/**
 * A small map of places in an order: a pin with a word at each, and a line from one to the next.
 */
public final class PinnedMap {
  private static final double MARGIN_PX = 24.0;
  private static final double RADIUS_PX = 9.0;
  private static final double LETTER_PX = 11.0;

  /** Not deeper than this, for places that lie together: own choice, single houses show. */
  private static final double DEEPEST_ZOOM = 16.0;

  private static final Color GROUND = new Color(0xe9, 0xec, 0xee);
  private static final Color PIN = new Color(0x14, 0x18, 0x1b);
  private static final Color WAY = new Color(0x4b, 0x55, 0x5b);

  private PinnedMap() {}

  /**
   * A place with a pin.
   *
   * @param word a letter or a number
   * @param place where
   */
  public record Pin(String word, GeoPoint place) {}

  /**
   * The window that shows all pins.
   *
   * @param pins one or more
   * @param widthPx how wide the picture is, pixels, more than 48
   * @param heightPx how high, pixels, more than 48
   * @return the window
   */
  public static MapView view(List<Pin> pins, int widthPx, int heightPx) {
    MapBox box = around(pins.get(0).place());
    for (Pin pin : pins) {
      box = box.with(around(pin.place()));
    }
    int marginPx = (int) MARGIN_PX;
    MapView inner = MapView.of(box, widthPx - 2 * marginPx, heightPx - 2 * marginPx, DEEPEST_ZOOM);
    return new MapView(
        inner.zoom(), inner.leftPx() - marginPx, inner.topPx() - marginPx, widthPx, heightPx);
  }

  /**
   * Draws.
   *
   * @param view the window
   * @param content what there is in it
   * @param pins the places in order
   * @param scale pixels of the picture for each of the page, 1 or more
   * @return the picture, plain where there is no map
   */
  public static BufferedImage draw(MapView view, MapContent content, List<Pin> pins, int scale) {
    BufferedImage map = MapPicture.draw(view, content, MapLook.LIGHT, scale);
    BufferedImage picture =
        new BufferedImage(map.getWidth(), map.getHeight(), BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = picture.createGraphics();
    try {
      graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      graphics.setColor(GROUND);
      graphics.fillRect(0, 0, picture.getWidth(), picture.getHeight());
      graphics.drawImage(map, 0, 0, null);
      graphics.scale(scale, scale);
      way(graphics, view, pins);
      for (int i = pins.size() - 1; i >= 0; i--) {
        pin(graphics, view, pins.get(i));
      }
    } finally {
      graphics.dispose();
    }
    return picture;
  }

  private static void way(Graphics2D graphics, MapView view, List<Pin> pins) {
    Path2D way = new Path2D.Double();
    for (Pin pin : pins) {
      double x = view.xPx(pin.place().longitudeDeg());
      double y = view.yPx(pin.place().latitudeDeg());
      if (way.getCurrentPoint() == null) {
        way.moveTo(x, y);
      } else {
        way.lineTo(x, y);
      }
    }
    graphics.setColor(WAY);
    graphics.setStroke(
        new BasicStroke(
            1.5f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1f, new float[] {4f, 3f}, 0f));
    graphics.draw(way);
  }

  private static void pin(Graphics2D graphics, MapView view, Pin pin) {
    double x = view.xPx(pin.place().longitudeDeg());
    double y = view.yPx(pin.place().latitudeDeg());
    Ellipse2D disc =
        new Ellipse2D.Double(x - RADIUS_PX, y - RADIUS_PX, 2 * RADIUS_PX, 2 * RADIUS_PX);
    graphics.setColor(PIN);
    graphics.fill(disc);
    graphics.setColor(Color.WHITE);
    graphics.setStroke(new BasicStroke(1.5f));
    graphics.draw(disc);
    Font font = Lettering.font(Font.BOLD, LETTER_PX);
    double width = Lettering.widthPx(font, pin.word());
    graphics.setFont(font);
    graphics.drawString(pin.word(), (float) (x - width / 2.0), (float) (y + LETTER_PX * 0.36));
  }

  private static MapBox around(GeoPoint place) {
    return new MapBox(
        place.longitudeDeg(), place.latitudeDeg(), place.longitudeDeg(), place.latitudeDeg());
  }
}

package org.lightledger.map.picture;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Area;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import org.lightledger.map.MapBox;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapView;

/**
 * Draws a map: a tile, or a still picture of any window. The same content gives the same picture on
 * every machine, but for the letters, which are the machine's own font without serifs.
 */
public final class MapPicture {
  private MapPicture() {}

  /**
   * Draws.
   *
   * @param view the window
   * @param content what there is in it
   * @param look light or dark
   * @param scale pixels of the picture for each of the page, 1 or more
   * @return the picture; outside of the maps' regions it is transparent
   */
  public static BufferedImage draw(MapView view, MapContent content, MapLook look, int scale) {
    BufferedImage picture =
        new BufferedImage(
            view.widthPx() * scale, view.heightPx() * scale, BufferedImage.TYPE_INT_ARGB);
    Graphics2D graphics = picture.createGraphics();
    try {
      graphics.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      graphics.setRenderingHint(
          RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      graphics.scale(scale, scale);
      Area regions = regions(view, content);
      graphics.setClip(regions);
      graphics.setColor(look.land);
      graphics.fill(regions);
      draw(graphics, view, content, look, regions);
    } finally {
      graphics.dispose();
    }
    return picture;
  }

  private static void draw(
      Graphics2D graphics, MapView view, MapContent content, MapLook look, Area regions) {
    Shapes shapes = new Shapes(view);
    Areas areas = new Areas(graphics, look, shapes, view.zoom());
    Ways ways = new Ways(graphics, look, shapes, view.zoom());
    areas.ground(content.features(), content.obstructions());
    ways.water(content.features());
    ways.travel(content.features(), -1);
    boolean houses = view.zoom() >= MapContent.HOUSES_FROM_ZOOM;
    if (houses) {
      areas.houses(content.features(), content.obstructions());
    }
    ways.travel(content.features(), 0);
    if (houses) {
      areas.crowns(content.obstructions());
    }
    ways.travel(content.features(), 1);
    LabelSpace space = new LabelSpace(regions);
    new Names(new Lettering(graphics, space, look.land), look, view)
        .write(content.features(), content.obstructions());
  }

  private static Area regions(MapView view, MapContent content) {
    Area regions = new Area();
    for (MapBox box : content.regions()) {
      double left = view.xPx(box.westDeg());
      double top = view.yPx(box.northDeg());
      regions.add(
          new Area(
              new Rectangle2D.Double(
                  left, top, view.xPx(box.eastDeg()) - left, view.yPx(box.southDeg()) - top)));
    }
    regions.intersect(new Area(new Rectangle2D.Double(0.0, 0.0, view.widthPx(), view.heightPx())));
    return regions;
  }
}

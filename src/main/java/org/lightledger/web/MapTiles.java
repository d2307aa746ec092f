package org.lightledger.web;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.locks.ReentrantLock;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapContent;
import org.lightledger.map.MapView;
import org.lightledger.map.WebMercator;
import org.lightledger.map.picture.MapLook;
import org.lightledger.map.picture.MapPicture;
import org.lightledger.store.Ledger;

/**
 * The map's tiles as PNG. Neighbours are drawn together, so that names run across their edges, and
 * kept in memory, those not asked for longest going first. Safe for use by several threads.
 */
public final class MapTiles {
  /** Tiles beside each other that are drawn together, a power of 2: own choice. */
  private static final int TOGETHER = 4;

  /** Some two thousand tiles: own choice. */
  private static final long MOST_KEPT_BYTES = 48L << 20;

  private final Ledger ledger;
  private final long mostKeptBytes;
  private final Map<Tile, byte[]> kept = new LinkedHashMap<>(64, 0.75f, true);
  private final ReentrantLock[] drawing = new ReentrantLock[16];
  private long keptBytes;

  /**
   * The tiles of a ledger's map.
   *
   * @param ledger the ledger
   */
  public MapTiles(Ledger ledger) {
    this(ledger, MOST_KEPT_BYTES);
  }

  MapTiles(Ledger ledger, long mostKeptBytes) {
    this.ledger = ledger;
    this.mostKeptBytes = mostKeptBytes;
    for (int i = 0; i < drawing.length; i++) {
      drawing[i] = new ReentrantLock();
    }
  }

  /**
   * One tile.
   *
   * @param version of the map, which changes with it
   * @param zoom 0 or more
   * @param x its number from west, less than 2^zoom
   * @param y its number from north, less than 2^zoom
   * @param look light or dark
   * @param scale pixels of the picture for each of the page
   */
  record Tile(long version, int zoom, int x, int y, MapLook look, int scale) {
    private Tile first() {
      return new Tile(version, zoom, x & -TOGETHER, y & -TOGETHER, look, scale);
    }
  }

  /**
   * The version of the map.
   *
   * @return a number that changes with it
   */
  long version() {
    return ledger.read(session -> session.maps().version());
  }

  /** A tile as PNG. */
  byte[] png(Tile tile) {
    byte[] found = find(tile);
    if (found != null) {
      return found;
    }
    Tile first = tile.first();
    ReentrantLock lock = drawing[Math.floorMod(first.hashCode(), drawing.length)];
    lock.lock();
    try {
      found = find(tile);
      return found == null ? draw(first, tile) : found;
    } finally {
      lock.unlock();
    }
  }

  private byte[] draw(Tile first, Tile wanted) {
    int across = Math.min(TOGETHER, 1 << wanted.zoom());
    MapView view = MapView.tiles(first.zoom(), first.x(), first.y(), across);
    MapContent content = ledger.read(session -> session.maps().content(view));
    BufferedImage picture = MapPicture.draw(view, content, first.look(), first.scale());
    int sidePx = WebMercator.TILE_PX * first.scale();
    byte[] answer = {};
    for (int row = 0; row < across; row++) {
      for (int column = 0; column < across; column++) {
        byte[] png = encode(picture.getSubimage(column * sidePx, row * sidePx, sidePx, sidePx));
        Tile tile =
            new Tile(
                first.version(),
                first.zoom(),
                first.x() + column,
                first.y() + row,
                first.look(),
                first.scale());
        keep(tile, png);
        if (tile.equals(wanted)) {
          answer = png;
        }
      }
    }
    return answer;
  }

  private static byte[] encode(BufferedImage tile) {
    ByteArrayOutputStream out = new ByteArrayOutputStream(1 << 14);
    try {
      ImageIO.write(tile, "png", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  private synchronized byte @Nullable [] find(Tile tile) {
    return kept.get(tile);
  }

  private synchronized void keep(Tile tile, byte[] png) {
    byte[] before = kept.put(tile, png);
    keptBytes += png.length - (before == null ? 0 : before.length);
    Iterator<byte[]> eldest = kept.values().iterator();
    while (keptBytes > mostKeptBytes && eldest.hasNext()) {
      keptBytes -= eldest.next().length;
      eldest.remove();
    }
  }

  synchronized long keptBytes() {
    return keptBytes;
  }
}

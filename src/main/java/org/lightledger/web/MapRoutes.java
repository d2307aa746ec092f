package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.lightledger.map.picture.MapLook;

/** The tiles of the owner's map. Clients' pages have none: they would tell where spots lie. */
final class MapRoutes {
  private static final int FIRST_ZOOM = 10;
  private static final int LAST_ZOOM = 19;

  /** The row, with its mark for screens of double density. */
  private static final Pattern ROW = Pattern.compile("(\\d{1,7})(@2x)?\\.png");

  private static final Pattern NUMBER = Pattern.compile("\\d{1,7}");

  private final MapTiles tiles;

  MapRoutes(MapTiles tiles) {
    this.tiles = tiles;
  }

  void register(RoutesConfig routes) {
    routes.get("/map/{z}/{x}/{row}", this::tile);
  }

  private void tile(Context ctx) {
    Matcher row = ROW.matcher(ctx.pathParam("row"));
    if (!row.matches()) {
      throw notFound();
    }
    int zoom = number(ctx.pathParam("z"));
    int x = number(ctx.pathParam("x"));
    int y = Integer.parseInt(row.group(1));
    if (zoom < FIRST_ZOOM || zoom > LAST_ZOOM || x >= 1 << zoom || y >= 1 << zoom) {
      throw notFound();
    }
    MapTiles.Tile tile =
        new MapTiles.Tile(tiles.version(), zoom, x, y, look(ctx), row.group(2) == null ? 1 : 2);
    String tag =
        String.format(
            Locale.ROOT, "\"%d-%s\"", tile.version(), tile.look().name().toLowerCase(Locale.ROOT));
    boolean named = String.valueOf(tile.version()).equals(ctx.queryParam("v"));
    ctx.header(
        "Cache-Control", named ? "private, max-age=31536000, immutable" : "private, no-cache");
    ctx.header("ETag", tag);
    if (tag.equals(ctx.header("If-None-Match"))) {
      ctx.status(HttpStatus.NOT_MODIFIED);
      return;
    }
    ctx.contentType("image/png").result(tiles.png(tile));
  }

  private static MapLook look(Context ctx) {
    return "dark".equals(ctx.queryParam("look")) ? MapLook.DARK : MapLook.LIGHT;
  }

  private static int number(String text) {
    if (!NUMBER.matcher(text).matches()) {
      throw notFound();
    }
    return Integer.parseInt(text);
  }

  private static PageProblem notFound() {
    return PageProblem.notFound(
        "There is no such tile: zoom, column and row of the map, z 10 to 19.");
  }
}

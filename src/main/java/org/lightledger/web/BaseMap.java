package org.lightledger.web;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.map.MapBox;
import org.lightledger.store.MapStore;
import org.lightledger.store.StoredMap;

/**
 * The ledger's map, for the scripts of a page.
 *
 * @param tiles the address of tiles, with places for zoom, x and y; it changes with the map
 * @param covered the regions: south, west, north, east, degrees, and ";" between them
 * @param licence the licences of the extracts
 */
public record BaseMap(String tiles, String covered, String licence) {
  /** Open Database License, under which OpenStreetMap has given its data since 2012. */
  private static final String USUAL_LICENCE = "ODbL";

  static @Nullable BaseMap of(MapStore store) {
    List<StoredMap> maps = store.all();
    return maps.isEmpty()
        ? null
        : new BaseMap(
            "/map/{z}/{x}/{y}{r}.png?v=" + store.version(),
            maps.stream().map(map -> box(map.bounds())).collect(Collectors.joining(";")),
            maps.stream()
                .map(map -> licence(map.licence()))
                .distinct()
                .collect(Collectors.joining(", ")));
  }

  private static String box(MapBox box) {
    return String.format(
        Locale.ROOT,
        "%.7f,%.7f,%.7f,%.7f",
        box.southDeg(),
        box.westDeg(),
        box.northDeg(),
        box.eastDeg());
  }

  private static String licence(@Nullable String named) {
    return named == null || named.toLowerCase(Locale.ROOT).contains("odbl") ? USUAL_LICENCE : named;
  }
}

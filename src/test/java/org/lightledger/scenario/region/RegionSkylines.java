package org.lightledger.scenario.region;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.geo.GeoPoint;
import org.lightledger.map.MapFeature;
import org.lightledger.map.MapObstruction;
import org.lightledger.map.MapSink;
import org.lightledger.map.osm.OsmExtract;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.buildings.BuildingHorizon;
import org.lightledger.skyline.buildings.BuildingOptions;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionKind;
import org.lightledger.skyline.buildings.Obstructions;
import org.lightledger.skyline.terrain.ElevationSurface;
import org.lightledger.skyline.terrain.TerrainHorizon;
import org.lightledger.skyline.terrain.TerrainOptions;

/** Skylines made from the region's files and nothing else. */
public final class RegionSkylines {
  private final ElevationSurface surface;
  private final Obstructions all;
  private final Obstructions withoutTrees;

  private RegionSkylines(ElevationSurface surface, List<Obstruction> obstructions) {
    this.surface = surface;
    all = Obstructions.of(obstructions, surface);
    withoutTrees =
        Obstructions.of(
            obstructions.stream()
                .filter(obstruction -> obstruction.kind() == ObstructionKind.BUILDING)
                .collect(Collectors.toList()),
            surface);
  }

  /** Opens the files in a folder. */
  public static RegionSkylines open(Path folder) throws IOException {
    ElevationSurface.Opened opened =
        ElevationSurface.open(List.of(folder), ElevationSurface.DEFAULT_CACHE_BYTES);
    if (!opened.problems().isEmpty()) {
      throw new IOException(String.join("; ", opened.problems()));
    }
    List<Obstruction> obstructions = new ArrayList<>();
    OsmExtract.read(folder.resolve(WriteSampleRegion.EXTRACT))
        .show(
            new MapSink() {
              @Override
              public void obstruction(MapObstruction found) {
                obstructions.add(found.obstruction());
              }

              @Override
              public void feature(MapFeature feature) {}
            });
    return new RegionSkylines(opened.surface(), obstructions);
  }

  /** The ground's height above sea level, metres. */
  public double groundM(GeoPoint place) {
    return surface.groundM(place).orElseThrow();
  }

  /** What the land alone makes. */
  public TerrainHorizon land(GeoPoint place) {
    return TerrainHorizon.around(surface, place, TerrainOptions.STANDARD).orElseThrow();
  }

  /** What the land and all that stands on it make. */
  public Skyline skyline(GeoPoint place) {
    return around(place).onto(land(place).skyline());
  }

  /** What stands around a place. */
  public BuildingHorizon around(GeoPoint place) {
    return all.around(place, BuildingOptions.STANDARD);
  }

  /** What the land, buildings and stone walls make. */
  public Skyline withoutTrees(GeoPoint place) {
    return withoutTrees.around(place, BuildingOptions.STANDARD).onto(land(place).skyline());
  }
}

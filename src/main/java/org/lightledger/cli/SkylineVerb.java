package org.lightledger.cli;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.Ground;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.buildings.BuildingHorizon;
import org.lightledger.skyline.buildings.BuildingOptions;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionFile;
import org.lightledger.skyline.buildings.Obstructions;
import org.lightledger.skyline.terrain.ElevationSurface;
import org.lightledger.skyline.terrain.TerrainHorizon;
import org.lightledger.skyline.terrain.TerrainOptions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
    name = "skyline",
    description = "Works out what stands around a place: terrain, obstructions, measured points.")
final class SkylineVerb extends Verb {
  private static final int SHOWN_EVERY_STEPS = 30;

  @Option(names = "--lat", required = true, paramLabel = "DEG", description = "Degrees north.")
  private double latitudeDeg;

  @Option(names = "--lon", required = true, paramLabel = "DEG", description = "Degrees east.")
  private double longitudeDeg;

  @Option(
      names = "--terrain",
      paramLabel = "FILE|DIR",
      description = "Elevation: .hgt (also zipped) or GeoTIFF; may be given several times.")
  private List<Path> terrain = new ArrayList<>();

  @Option(
      names = "--obstructions",
      paramLabel = "FILE.geojson",
      description = "Buildings, tree rows and woods with their heights.")
  private List<Path> obstructions = new ArrayList<>();

  @Option(
      names = "--measured",
      paramLabel = "FILE.csv",
      description = "Azimuth and altitude measured by hand at the place, degrees.")
  private @Nullable Path measured;

  SkylineVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() throws IOException {
    GeoPoint place = new GeoPoint(latitudeDeg, longitudeDeg);
    if (terrain.isEmpty() && obstructions.isEmpty() && measured == null) {
      throw new IllegalArgumentException(
          "expected --terrain, --obstructions or --measured, found none of them");
    }
    Skyline skyline = around(place);
    print(() -> json(skyline), () -> text(skyline));
    return 0;
  }

  private Skyline around(GeoPoint place) throws IOException {
    Ground ground = null;
    Skyline skyline = Skyline.notKnown();
    if (!terrain.isEmpty()) {
      ElevationSurface.Opened opened =
          ElevationSurface.open(terrain, ElevationSurface.DEFAULT_CACHE_BYTES);
      opened.problems().forEach(this::note);
      ground = opened.surface();
      Optional<TerrainHorizon> horizon =
          TerrainHorizon.around(opened.surface(), place, TerrainOptions.STANDARD);
      if (horizon.isEmpty()) {
        note("The elevation at the place itself is not known, so the terrain's skyline is not.");
      } else {
        skyline = horizon.get().skyline();
      }
    }
    if (!obstructions.isEmpty()) {
      skyline = withObstructions(skyline, ground, place);
    }
    return measured == null
        ? skyline
        : MeasuredSkyline.onto(MeasuredSkyline.read(measured), skyline);
  }

  private Skyline withObstructions(Skyline land, @Nullable Ground ground, GeoPoint place)
      throws IOException {
    List<Obstruction> all = new ArrayList<>();
    for (Path file : obstructions) {
      ObstructionFile.Read read = ObstructionFile.read(file);
      read.problems().forEach(this::note);
      all.addAll(read.obstructions());
    }
    BuildingHorizon horizon = Obstructions.of(all, ground).around(place, BuildingOptions.STANDARD);
    if (!horizon.inside().isEmpty()) {
      note("The place lies inside an outline, which is left out: look at its position.");
    }
    return horizon.onto(land);
  }

  private static Map<String, @Nullable Object> json(Skyline skyline) {
    List<@Nullable BigDecimal> angles = new ArrayList<>();
    List<@Nullable BigDecimal> uncertainties = new ArrayList<>();
    List<String> sources = new ArrayList<>();
    List<Boolean> lowerBounds = new ArrayList<>();
    for (int step = 0; step < Skyline.STEPS; step++) {
      angles.add(finite(skyline.altitudeDeg(step)));
      uncertainties.add(finite(skyline.uncertaintyDeg(step)));
      sources.add(code(skyline.source(step)));
      lowerBounds.add(skyline.lowerBoundOnly(step));
    }
    return Json.fields()
        .put("stepDeg", BigDecimal.valueOf(Skyline.STEP_DEG))
        .put("anglesDeg", angles)
        .put("uncertaintiesDeg", uncertainties)
        .put("sources", sources)
        .put("lowerBoundOnly", lowerBounds)
        .map();
  }

  private static @Nullable BigDecimal finite(double valueDeg) {
    return Double.isFinite(valueDeg) ? Json.angle(valueDeg) : null;
  }

  private static String code(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static String text(Skyline skyline) {
    StringBuilder text = new StringBuilder();
    for (int step = 0; step < Skyline.STEPS; step += SHOWN_EVERY_STEPS) {
      text.append(String.format(Locale.ROOT, "%5.1f°  ", Skyline.azimuthDeg(step)));
      if (Double.isFinite(skyline.altitudeDeg(step))) {
        text.append(
            String.format(
                Locale.ROOT,
                "%6.2f° ±%.2f°  %s",
                skyline.altitudeDeg(step),
                skyline.uncertaintyDeg(step),
                code(skyline.source(step))));
      } else {
        text.append("not known");
      }
      for (SkylineFlag flag : skyline.flags(step)) {
        text.append(", ").append(code(flag));
      }
      text.append(System.lineSeparator());
    }
    return text.toString();
  }
}

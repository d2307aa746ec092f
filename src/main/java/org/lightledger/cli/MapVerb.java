package org.lightledger.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.MapAdding;
import org.lightledger.map.MapBox;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredMap;
import org.lightledger.studio.RegionRoads;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "map", description = "The map of your region, with buildings and trees.")
final class MapVerb implements Runnable {
  @Spec private CommandSpec spec;

  static CommandLine of(Services services) {
    return new CommandLine(new MapVerb())
        .addSubcommand(new Add(services))
        .addSubcommand(new All(services))
        .addSubcommand(new Remove(services));
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "expected one of add, list, remove, found none");
  }

  /** Adds an extract. */
  @Command(
      name = "add",
      description = {
        "Adds an OpenStreetMap extract: .osm, .osm.gz or .osm.pbf.",
        "The same file is added once. For a newer file of the same region remove the older one."
      })
  static final class Add extends Verb {
    @Parameters(paramLabel = "FILE", description = "The extract.")
    private Path file;

    Add(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      if (!Files.isRegularFile(file)) {
        throw new IllegalArgumentException("expected an extract, found no file " + file);
      }
      MapAdding.Result result;
      try (Ledger ledger = openOrMake()) {
        List<StoredMap> before = ledger.read(session -> session.maps().all());
        result = new MapAdding(ledger, services.clock()).add(file);
        if (result.added()) {
          overlapping(before, result.map());
          makeSkylines(ledger);
          RegionRoads.prepare(ledger).forEach(this::note);
        }
      } catch (IOException e) {
        note(String.valueOf(e.getMessage()));
        note("Nothing was added.");
        return CommandLine.ExitCode.SOFTWARE;
      }
      result.problems().forEach(this::note);
      print(() -> addedJson(result), () -> addedText(result));
      return 0;
    }

    private void overlapping(List<StoredMap> before, StoredMap added) {
      for (StoredMap map : before) {
        if (map.bounds().meets(added.bounds())) {
          note(
              String.format(
                  Locale.ROOT,
                  "Map %d (%s) shows some of the same region: what both hold now counts twice."
                      + " \"map remove %d\" removes the older one.",
                  map.id(),
                  map.fileName(),
                  map.id()));
        }
      }
    }

    private static Map<String, @Nullable Object> addedJson(MapAdding.Result result) {
      Map<String, @Nullable Object> json = json(result.map());
      json.put("added", result.added());
      json.put("changed", result.changed().map(MapVerb::box).orElse(null));
      return json;
    }

    private static String addedText(MapAdding.Result result) {
      StoredMap map = result.map();
      return result.added()
          ? line(map)
          : String.format(
              Locale.ROOT, "Map %d holds this file already: nothing to add.%n", map.id());
    }
  }

  /** Lists the maps. */
  @Command(name = "list", description = "Lists the maps.")
  static final class All extends Verb {
    All(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        List<StoredMap> maps = ledger.read(session -> session.maps().all());
        print(
            () -> Map.of("maps", maps.stream().map(MapVerb::json).toList()),
            () -> {
              StringBuilder text = new StringBuilder();
              maps.forEach(map -> text.append(line(map)));
              return maps.isEmpty()
                  ? String.format("No map; \"map add\" adds one.%n")
                  : text.toString();
            });
      }
      return 0;
    }
  }

  /** Removes a map. */
  @Command(name = "remove", description = "Removes a map; what you drew by hand stays.")
  static final class Remove extends Verb {
    @Parameters(paramLabel = "ID", description = "The map's number, as \"map list\" tells it.")
    private long mapId;

    Remove(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        new MapAdding(ledger, services.clock()).remove(mapId);
        makeSkylines(ledger);
      }
      print(
          () -> Map.of("removed", mapId),
          () -> String.format(Locale.ROOT, "Removed map %d.%n", mapId));
      return 0;
    }
  }

  private static String line(StoredMap map) {
    return String.format(
        Locale.ROOT,
        "%4d  %s: %d buildings and trees, %d other features, %d problems; %.5f,%.5f to %.5f,%.5f%n",
        map.id(),
        map.fileName(),
        map.obstructions(),
        map.features(),
        map.problems(),
        map.bounds().southDeg(),
        map.bounds().westDeg(),
        map.bounds().northDeg(),
        map.bounds().eastDeg());
  }

  private static Map<String, @Nullable Object> json(StoredMap map) {
    return Json.fields()
        .put("mapId", map.id())
        .put("file", map.fileName())
        .put("path", map.path().toString())
        .put("sha256", map.sha256())
        .put("addedAt", map.addedAt().toString())
        .put("licence", map.licence())
        .put("bounds", box(map.bounds()))
        .put("obstructions", map.obstructions())
        .put("features", map.features())
        .put("problems", map.problems())
        .map();
  }

  private static Map<String, @Nullable Object> box(MapBox box) {
    return Json.fields()
        .put("west", Json.coordinate(box.westDeg()))
        .put("south", Json.coordinate(box.southDeg()))
        .put("east", Json.coordinate(box.eastDeg()))
        .put("north", Json.coordinate(box.northDeg()))
        .map();
  }
}

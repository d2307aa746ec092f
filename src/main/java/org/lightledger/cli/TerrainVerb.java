package org.lightledger.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.lightledger.store.ElevationStore;
import org.lightledger.store.Ledger;
import org.lightledger.surroundings.ElevationCheck;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(name = "terrain", description = "The elevation that skylines are made from.")
final class TerrainVerb implements Runnable {
  @Spec private CommandSpec spec;

  static CommandLine of(Services services) {
    return new CommandLine(new TerrainVerb())
        .addSubcommand(new Add(services))
        .addSubcommand(new All(services))
        .addSubcommand(new Remove(services));
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "expected one of add, list, remove, found none");
  }

  /** Adds files. */
  @Command(
      name = "add",
      description = {
        "Adds elevation: .hgt (also zipped) or GeoTIFF, or folders of them.",
        "The files stay where they are."
      })
  static final class Add extends Verb {
    @Parameters(arity = "1..*", paramLabel = "FILE|DIR", description = "Files and folders.")
    private List<Path> paths;

    Add(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      int files = ElevationCheck.files(paths);
      try (Ledger ledger = openOrMake()) {
        long added =
            ledger.write(
                session ->
                    paths.stream()
                        .filter(path -> session.elevation().add(path, services.clock().instant()))
                        .count());
        long skylines = makeSkylines(ledger);
        print(
            () ->
                Json.fields()
                    .put("added", added)
                    .put("known", paths.size() - added)
                    .put("files", files)
                    .put("skylines", skylines)
                    .map(),
            () ->
                String.format(
                    Locale.ROOT,
                    "%d added, %d known already; %d elevation files in them; %d skylines made%n",
                    added,
                    paths.size() - added,
                    files,
                    skylines));
      }
      return 0;
    }
  }

  /** Lists them. */
  @Command(name = "list", description = "Lists the elevation of the ledger.")
  static final class All extends Verb {
    All(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        List<ElevationStore.ElevationFile> files =
            ledger.read(session -> session.elevation().all());
        print(
            () ->
                files.stream()
                    .map(
                        file ->
                            Json.fields()
                                .put("id", file.id())
                                .put("path", file.path().toString())
                                .map())
                    .toList(),
            () -> {
              StringBuilder text = new StringBuilder();
              for (ElevationStore.ElevationFile file : files) {
                text.append(String.format(Locale.ROOT, "%4d  %s%n", file.id(), file.path()));
              }
              return text.append(String.format(Locale.ROOT, "%d in all%n", files.size()))
                  .toString();
            });
      }
      return 0;
    }
  }

  /** Forgets one. */
  @Command(name = "remove", description = "Forgets elevation; the files themselves stay.")
  static final class Remove extends Verb {
    @Parameters(paramLabel = "ID", description = "Its number, as \"terrain list\" tells it.")
    private long id;

    Remove(Services services) {
      super(services);
    }

    @Override
    public Integer call() {
      try (Ledger ledger = open()) {
        ledger.change(session -> session.elevation().remove(id));
        long skylines = makeSkylines(ledger);
        print(
            () -> Json.fields().put("removed", id).put("skylines", skylines).map(),
            () -> String.format(Locale.ROOT, "Removed; %d skylines made anew%n", skylines));
      }
      return 0;
    }
  }
}

package org.lightledger.cli;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import me.tongfei.progressbar.ConsoleProgressBarConsumer;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "import",
    description =
        "Indexes files and folders of scouting shots. Originals stay where they are, unchanged.")
final class ImportVerb extends Verb {
  @Parameters(arity = "1..*", paramLabel = "PATH", description = "Files and folders.")
  private List<Path> paths;

  @Option(
      names = "--zone",
      paramLabel = "ZONE",
      description =
          "The zone the camera's clock was set to, such as Europe/Madrid, for shots whose place is"
              + " not known.")
  private @Nullable ZoneId zone;

  @Option(
      names = "--join-within",
      paramLabel = "M",
      defaultValue = "25",
      description =
          "A shot joins the nearest spot within so many metres; ${DEFAULT-VALUE} if not given.")
  private double joinDistanceM;

  ImportVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    ImportOptions standard = ImportOptions.standard();
    try (Ledger ledger = openOrMake();
        Bar bar = new Bar()) {
      ImportReport report =
          services
              .importer(ledger)
              .run(paths, new ImportOptions(zone, standard.threads(), joinDistanceM), bar);
      print(() -> ImportOutput.json(report), () -> ImportOutput.text(report));
    }
    return 0;
  }

  /** Shows progress on standard error. */
  private static final class Bar implements ImportProgress, AutoCloseable {
    private @Nullable ProgressBar bar;

    @Override
    public void started(int files) {
      bar =
          new ProgressBarBuilder()
              .setTaskName("Import")
              .setUnit(" files", 1)
              .setInitialMax(files)
              .showSpeed()
              .setConsumer(new ConsoleProgressBarConsumer(System.err))
              .build();
    }

    @Override
    public void done(FileReport file) {
      if (bar != null) {
        bar.step();
      }
    }

    @Override
    public void passedOver(int files) {
      if (bar != null) {
        bar.stepBy(files);
      }
    }

    @Override
    public void close() {
      if (bar != null) {
        bar.close();
      }
    }
  }
}

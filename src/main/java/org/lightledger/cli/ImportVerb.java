package org.lightledger.cli;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import me.tongfei.progressbar.ConsoleProgressBarConsumer;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.FolderWatch;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.track.GpxReader;
import org.lightledger.shot.track.TrackLimits;
import org.lightledger.shot.track.TrackLog;
import org.lightledger.shot.track.TrackPlaces;
import org.lightledger.shot.track.UnreadableTrackException;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
    name = "import",
    description =
        "Indexes files and folders of scouting shots. Originals stay where they are, unchanged.")
final class ImportVerb extends Verb {
  /** How long Ctrl-C may go unseen while nothing comes in; own choice. */
  private static final Duration LOOK_UP = Duration.ofMillis(300);

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
      names = "--camera-offset",
      paramLabel = "±H:MM:SS",
      description =
          "What to add to the camera's clock: -1:00:00 when it is an hour ahead of the truth.")
  private @Nullable String cameraOffset;

  @Option(
      names = "--track",
      paramLabel = "FILE.gpx",
      description = "A track log that places shots without a position; may be given several times.")
  private List<Path> tracks = new ArrayList<>();

  @Option(
      names = "--join-within",
      paramLabel = "M",
      description =
          "This time a shot joins the nearest spot within so many metres. If not given, the"
              + " distance set on the import page holds, 25 at first.")
  private @Nullable Double joinDistanceM;

  @Option(
      names = "--watch",
      description =
          "Goes on after the import and imports files as they come into the folders, until Ctrl-C.")
  private boolean watch;

  ImportVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    OwnerWord word = ownerWord();
    try (CtrlC ctrlC = new CtrlC();
        Ledger ledger = openOrMake()) {
      Importer importer = services.importer(ledger);
      ImportOptions standard = importer.options();
      Double distanceM = joinDistanceM;
      ImportOptions options =
          new ImportOptions(
              word, standard.threads(), distanceM == null ? standard.joinDistanceM() : distanceM);
      if (watch) {
        try (FolderWatch folders = new FolderWatch(paths, FolderWatch.STANDARD_SETTLE)) {
          run(importer, paths, options, ctrlC);
          note("Watching. Files are imported as they come in; end with Ctrl-C.");
          while (!ctrlC.asked()) {
            List<Path> settled = folders.await(LOOK_UP);
            if (!settled.isEmpty()) {
              run(importer, settled, options, ctrlC);
            }
          }
        }
      } else {
        run(importer, paths, options, ctrlC);
      }
    }
    return 0;
  }

  private void run(Importer importer, List<Path> files, ImportOptions options, CtrlC ctrlC) {
    ImportOutput.Stream stream = json ? new ImportOutput.Stream(out()) : null;
    ImportReport report;
    try (Bar bar = new Bar(ctrlC, stream)) {
      report = importer.run(files, options, bar);
    }
    if (report.cancelled()) {
      note("Stopped. What was read is in the ledger; import the same folder again to go on.");
    }
    if (stream != null) {
      stream.end(report);
    } else {
      out().print(ImportOutput.text(report));
      out().flush();
    }
  }

  private OwnerWord ownerWord() {
    String offset = cameraOffset;
    ClockCorrection correction =
        offset == null ? ClockCorrection.NONE : ClockCorrection.parse(offset);
    return new OwnerWord(zone, correction, tracks.isEmpty() ? null : readTracks());
  }

  private TrackPlaces readTracks() {
    List<TrackLog> logs = new ArrayList<>();
    for (Path track : tracks) {
      try (InputStream in = new BufferedInputStream(Files.newInputStream(track))) {
        TrackLog log = GpxReader.read(in);
        note(
            String.format(
                Locale.ROOT, "%s: %d points with a time", track.getFileName(), log.size()));
        logs.add(log);
      } catch (UnreadableTrackException e) {
        throw new IllegalArgumentException("--track " + track + ": " + e.getMessage(), e);
      } catch (IOException e) {
        throw new IllegalArgumentException(
            "--track: expected a file that can be read, found " + track, e);
      }
    }
    return new TrackPlaces(logs, TrackLimits.standard());
  }

  /** Shows progress on standard error, passes lines on, and hears Ctrl-C. */
  private static final class Bar implements ImportProgress, AutoCloseable {
    private final CtrlC ctrlC;
    private final ImportOutput.@Nullable Stream stream;
    private @Nullable ProgressBar bar;

    Bar(CtrlC ctrlC, ImportOutput.@Nullable Stream stream) {
      this.ctrlC = ctrlC;
      this.stream = stream;
    }

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
      if (stream != null) {
        stream.add(file);
      }
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
    public boolean cancelled() {
      return ctrlC.asked();
    }

    @Override
    public void close() {
      if (bar != null) {
        bar.close();
      }
    }
  }
}

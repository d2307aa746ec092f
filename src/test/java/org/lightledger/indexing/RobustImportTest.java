package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;

/** Files that change, vanish or have odd names; folders that are watched. */
@Timeout(120)
class RobustImportTest {
  private static final PlaceZones ZONES = new PlaceZones();
  private static final Duration SETTLE = Duration.ofMillis(400);

  @TempDir Path folder;
  private Path photos;
  private Ledger ledger;

  @BeforeEach
  void open() throws IOException {
    photos = Files.createDirectory(folder.resolve("photos"));
    ledger =
        Ledger.open(
            folder.resolve("ledger"),
            Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC));
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  private static byte[] shot(int number) {
    return TestPhotos.shot(
        "2026:05:09 19:30:" + (10 + number % 50), "+02:00", 41.93 + number * 1e-3, -6.42, 250);
  }

  private ImportReport run(ImportProgress progress) {
    return new Importer(ledger, ZONES, new SpaEphemeris())
        .run(List.of(photos), ImportOptions.standard(), progress);
  }

  private long shots() {
    return ledger.read(session -> session.shots().counts().all());
  }

  @Test
  void oddNamesAreNamesLikeAnyOther() {
    List<String> names =
        List.of(
            "new\nline.jpg",
            "tab\tand \u0001.jpg",
            "sunset \uD83C\uDF05\uD83D\uDC69\u200D\u2764\uFE0F\u200D\uD83D\uDC69.jpg",
            "\u202Egpj.txet \u05E9\u05E7\u05D9\u05E2\u05D4.jpg",
            "'; DROP TABLE shots; --.jpg",
            "%s%n {} \\ \".jpg",
            "-rf.jpg",
            "a".repeat(251) + ".jpg",
            "\u00E9.jpg",
            "e\u0301.jpg");
    for (int i = 0; i < names.size(); i++) {
      TestPhotos.write(photos.resolve(names.get(i)), shot(i));
    }

    assertThat(run(ImportProgress.NONE).count(FileReport.Status.ADDED)).isEqualTo(names.size());
    ImportReport again = run(ImportProgress.NONE);

    assertThat(again.count(FileReport.Status.KNOWN)).isEqualTo(names.size());
    assertThat(again.files())
        .allSatisfy(
            line -> {
              long id = line.shotId() == null ? 0 : line.shotId();
              assertThat(ledger.read(session -> session.shots().find(id)).orElseThrow().files())
                  .containsExactly(line.path())
                  .allMatch(Files::exists);
            });
  }

  @Test
  void aFileThatChangesWhileItIsReadIsToldAndTheNextImportPicksItUp() {
    Path file = photos.resolve("a.jpg");
    TestPhotos.write(file, shot(1));
    ImportOptions options = ImportOptions.standard();
    FileReading reading = new FileReading(new ShotRules(ZONES), new SpaEphemeris(), options);
    // The question whether the content is known comes while the file is being read; what writes
    // to the file then is seen only by a look after the reading.
    FileReading.Result result = new ChangingFile(reading, file, shot(2)).read();

    assertThat(result)
        .isInstanceOfSatisfying(
            FileReading.Failed.class,
            failed -> assertThat(failed.problem().message()).contains("changed while it was read"));
    assertThat(run(ImportProgress.NONE).count(FileReport.Status.ADDED)).isEqualTo(1);
  }

  /** Writes another content to a file in the middle of its reading. */
  private record ChangingFile(FileReading reading, Path file, byte[] later) {
    FileReading.Result read() {
      return reading.read(
          file,
          sha256 -> {
            byte[] longer = Arrays.copyOf(later, later.length + 10);
            TestPhotos.write(file, longer);
            return false;
          });
    }
  }

  @Test
  void aFileThatVanishesIsToldAndStopsNothing() {
    for (int i = 0; i < 2000; i++) {
      TestPhotos.write(photos.resolve(String.format(Locale.ROOT, "%04d.jpg", i)), shot(i));
    }
    ImportReport report =
        run(
            new ImportProgress() {
              @Override
              public void started(int files) {}

              @Override
              public void done(FileReport file) {
                if (file.path().endsWith("0000.jpg")) {
                  delete(photos.resolve("1999.jpg"));
                }
              }
            });

    assertThat(report.count(FileReport.Status.ADDED)).isEqualTo(1999);
    assertThat(report.count(FileReport.Status.UNREADABLE)).isEqualTo(1);
  }

  private static void delete(Path file) {
    try {
      Files.delete(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Test
  void aFileThatIsAsItWasIsNotReadAgainAndOneThatWasChangedIs() throws IOException {
    Path file = photos.resolve("a.jpg");
    TestPhotos.write(file, shot(1));
    run(ImportProgress.NONE);
    var modified = Files.getLastModifiedTime(file);

    // Same length and time: the ledger takes it for the same without a look.
    byte[] other = shot(9);
    assertThat(other).hasSameSizeAs(shot(1));
    Files.write(file, other);
    Files.setLastModifiedTime(file, modified);
    assertThat(run(ImportProgress.NONE).count(FileReport.Status.KNOWN)).isEqualTo(1);

    Files.setLastModifiedTime(file, FileTime.fromMillis(modified.toMillis() + 5));
    assertThat(run(ImportProgress.NONE).count(FileReport.Status.ADDED)).isEqualTo(1);
  }

  @Test
  void aReportOfAnySizeIsBoundedAndKeepsWhatNeedsAnEye() {
    Tally tally = new Tally();
    for (int i = 0; i < 5000; i++) {
      tally.add(Reports.known(Path.of("known" + i), i));
    }
    for (int i = 0; i < 3000; i++) {
      tally.add(
          new FileReport(
              Path.of("bad" + i), FileReport.Status.UNREADABLE, null, null, null, null, List.of()));
    }

    assertThat(tally.lines()).hasSize(2 * Tally.MOST_LINES);
    assertThat(tally.lines().stream().filter(FileReport::needsEye)).hasSize(Tally.MOST_LINES);
    assertThat(tally.count(FileReport.Status.KNOWN)).isEqualTo(5000);
    assertThat(tally.all()).isEqualTo(8000);
  }

  @Test
  void thePaceIsThatOfTheLastSeconds() {
    long[] now = {0};
    Pace pace = new Pace(() -> now[0]);
    assertThat(pace.perSecond()).isEmpty();
    for (int second = 1; second <= 60; second++) {
      now[0] = second * 1_000_000_000L;
      pace.reached(second <= 30 ? second * 1000L : 30_000 + (second - 30) * 10L);
    }

    assertThat(pace.perSecond().orElse(0)).isBetween(9.9, 10.1);
  }

  @Test
  void filesThatComeIntoAWatchedFolderAreToldOnceTheyHaveSettled() throws IOException {
    TestPhotos.write(photos.resolve("before.jpg"), shot(1));
    try (FolderWatch watch = new FolderWatch(List.of(photos), SETTLE)) {
      assertThat(watch.await(Duration.ofMillis(600))).isEmpty();

      TestPhotos.write(photos.resolve("new.jpg"), shot(2));
      TestPhotos.write(photos.resolve("folder/inner/deep.jpg"), shot(3));
      assertThat(collect(watch, 2))
          .containsOnlyKeys(photos.resolve("new.jpg"), photos.resolve("folder/inner/deep.jpg"));

      TestPhotos.write(photos.resolve("folder/inner/later.jpg"), shot(4));
      assertThat(collect(watch, 1)).containsOnlyKeys(photos.resolve("folder/inner/later.jpg"));
    }
  }

  private static Map<Path, Integer> collect(FolderWatch watch, int files) {
    Map<Path, Integer> told = new HashMap<>();
    for (int tries = 0; tries < 20 && told.size() < files; tries++) {
      watch.await(Duration.ofSeconds(1)).forEach(path -> told.merge(path, 1, Integer::sum));
    }
    return told;
  }

  @Test
  void aFileThatIsStillBeingCopiedIsNotTold() throws IOException, InterruptedException {
    try (FolderWatch watch = new FolderWatch(List.of(photos), SETTLE)) {
      Path slow = photos.resolve("slow.jpg");
      byte[] content = shot(1);
      List<Path> early = new ArrayList<>();
      try (var out = Files.newOutputStream(slow)) {
        for (int part = 0; part < 12; part++) {
          out.write(content, part, 1);
          out.flush();
          early.addAll(watch.await(Duration.ofMillis(100)));
        }
        out.write(content, 12, content.length - 12);
      }

      assertThat(early).isEmpty();
      assertThat(collect(watch, 1)).containsOnlyKeys(slow);
    }
  }

  @Test
  void moreFilesThanTheSystemCountsAreStillAllImported() throws IOException {
    try (FolderWatch watch = new FolderWatch(List.of(photos), SETTLE)) {
      // Java's watch service gives up counting at 512 events that nobody has taken.
      for (int i = 0; i < 700; i++) {
        TestPhotos.write(photos.resolve("shot" + i + ".jpg"), shot(i));
      }
      List<Path> told = new ArrayList<>();
      for (int tries = 0; tries < 20 && told.isEmpty(); tries++) {
        told.addAll(watch.await(Duration.ofSeconds(1)));
      }

      assertThat(told).contains(photos);
      new Importer(ledger, ZONES, new SpaEphemeris())
          .run(told, ImportOptions.standard(), ImportProgress.NONE);
      assertThat(shots()).isEqualTo(700);
    }
  }

  private void thicket(Path home, int size) throws IOException {
    for (int i = 0; i < size; i++) {
      Files.createDirectories(home.resolve("" + i));
      for (int j = 0; j < size; j++) {
        Files.createSymbolicLink(home.resolve(i + "/to" + j), home.resolve("" + j));
      }
    }
  }

  /** Walking every path through the links takes longer than anybody lives. */
  @Test
  void aThicketOfLinksIsWatchedOnceAndSoIsOneThatComesIn() throws IOException {
    thicket(photos, 12);
    Path elsewhere = folder.resolve("elsewhere");
    thicket(elsewhere, 12);
    try (FolderWatch watch =
        assertTimeoutPreemptively(
            Duration.ofSeconds(30), () -> new FolderWatch(List.of(photos), SETTLE))) {
      TestPhotos.write(photos.resolve("5/inside.jpg"), shot(1));
      assertThat(collect(watch, 1)).containsOnlyKeys(photos.resolve("5/inside.jpg"));

      TestPhotos.write(elsewhere.resolve("7/before.jpg"), shot(2));
      Files.createSymbolicLink(photos.resolve("linked"), elsewhere);
      Map<Path, Integer> told =
          assertTimeoutPreemptively(Duration.ofSeconds(40), () -> collect(watch, 1));
      assertThat(told).hasSize(1).containsValue(1);
      assertThat(told.keySet()).allMatch(path -> path.endsWith("before.jpg"));

      TestPhotos.write(elsewhere.resolve("3/later.jpg"), shot(3));
      assertThat(collect(watch, 1).keySet())
          .singleElement()
          .matches(path -> path.startsWith(photos.resolve("linked")));
    }
  }

  @Test
  void aLinkedFolderIsWatchedAnewWhenItsLinkWasReplaced() throws IOException {
    Path disk = Files.createDirectories(folder.resolve("disk/inner"));
    Path link = Files.createSymbolicLink(photos.resolve("link"), disk.getParent());
    try (FolderWatch watch = new FolderWatch(List.of(photos), SETTLE)) {
      TestPhotos.write(disk.resolve("a.jpg"), shot(1));
      assertThat(collect(watch, 1)).containsOnlyKeys(link.resolve("inner/a.jpg"));

      Files.delete(link);
      Path renamed = Files.createSymbolicLink(photos.resolve("renamed"), disk.getParent());
      assertThat(collect(watch, 1)).containsOnlyKeys(renamed.resolve("inner/a.jpg"));

      Files.delete(disk.resolve("a.jpg"));
      Files.delete(disk);
      assertThat(watch.await(SETTLE.multipliedBy(2))).isEmpty();
      Files.createDirectory(disk);
      TestPhotos.write(disk.resolve("b.jpg"), shot(2));
      assertThat(collect(watch, 1)).containsOnlyKeys(renamed.resolve("inner/b.jpg"));
    }
  }

  @Test
  void aWatchThatIsClosedEndsItsWait() throws InterruptedException {
    FolderWatch watch = new FolderWatch(List.of(photos), SETTLE);
    Thread closing = new Thread(watch::close);
    closing.start();

    assertThat(watch.await(Duration.ofSeconds(60))).isEmpty();
    closing.join();
  }
}

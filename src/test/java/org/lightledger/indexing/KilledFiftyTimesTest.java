package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.correction.Correction;
import org.lightledger.correction.Corrections;
import org.lightledger.correction.FacingWord;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.shot.zone.ZonesAtPlace;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerCheck;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredFile;
import org.lightledger.sun.SpaEphemeris;

/**
 * A program that imports photos and, at the same time, edits spots, shortlists and corrections is
 * killed again and again, as by kill -9. After each kill the ledger is sound and holds all that the
 * program had said it had kept. How often: the property {@code lightledger.kills}, else eight
 * times.
 */
class KilledFiftyTimesTest {
  private static final int KILLS = Integer.getInteger("lightledger.kills", 8);
  private static final int PHOTOS_PER_KILL = 150;

  /** A batch of so many, so that many of them end within a second. */
  private static final int BATCH = 20;

  private static final Duration LONGEST_LIFE = Duration.ofMillis(700);

  /**
   * A slow machine may need longer lives, and more of them, until something of each kind is kept.
   */
  private static final Duration LONGER_EACH_TIME = Duration.ofMillis(50);

  private static final int MOST_TIMES = 4;
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);
  private static final ZoneLookup NO_ZONES =
      (place, errorM) -> new ZonesAtPlace(List.of(), List.of());

  @TempDir Path folder;

  @Test
  void keepsWhatItHasSaidItKept() throws Exception {
    Path ledgerFolder = folder.resolve("ledger");
    Path photos = folder.resolve("photos");
    TestPhotos.fill(photos, PHOTOS_PER_KILL * KILLS);
    Random random = new Random(50);
    Map<String, String> said = new LinkedHashMap<>();
    int lines = 0;
    int kill = 0;
    while (kill < KILLS || (!ofAllKinds(said) && kill < MOST_TIMES * KILLS)) {
      kill++;
      long longestMs = LONGEST_LIFE.toMillis() + kill * LONGER_EACH_TIME.toMillis();
      List<String> heard = killAfter(random.nextLong(longestMs), ledgerFolder, photos);
      lines += heard.size();
      for (String line : heard) {
        String[] words = line.split("\t", 2);
        said.put(words[0], words[1]);
      }
      assertThat(LedgerCheck.run(ledgerFolder)).as("after kill %d", kill).isEmpty();
      try (Ledger ledger = Ledger.open(ledgerFolder, CLOCK)) {
        ledger.read(session -> requireAll(said, session));
      }
    }
    System.out.println(kill + " kills, " + lines + " commits told, " + said.size() + " rows");
    assertThat(ofAllKinds(said)).as("kinds among %s", said.keySet()).isTrue();
  }

  private static boolean ofAllKinds(Map<String, String> said) {
    return Stream.of("file ", "spot ", "list ", "entry ", "correction ")
        .allMatch(kind -> said.keySet().stream().anyMatch(key -> key.startsWith(kind)));
  }

  /** An edit that was committed and not told may stand in the place of the one that was told. */
  private static boolean requireAll(Map<String, String> said, LedgerSession session) {
    said.forEach(
        (key, value) -> {
          String what = key.substring(0, key.indexOf(' '));
          String id = key.substring(key.indexOf(' ') + 1);
          switch (what) {
            case "file" ->
                assertThat(session.files().find(Path.of(id)).orElseThrow().shotId())
                    .as(key)
                    .isEqualTo(Long.parseLong(value));
            case "spot" ->
                assertThat(count(session.spots().find(Long.parseLong(id)).orElseThrow().name()))
                    .as(key)
                    .isGreaterThanOrEqualTo(count(value));
            case "list" ->
                assertThat(
                        count(session.shortlists().find(Long.parseLong(id)).orElseThrow().title()))
                    .as(key)
                    .isGreaterThanOrEqualTo(count(value));
            case "entry" ->
                assertThat(session.shortlists().entries(Long.parseLong(value)))
                    .as(key)
                    .anyMatch(entry -> entry.id() == Long.parseLong(id));
            case "correction" ->
                assertThat(session.corrections().newestOf(Long.parseLong(value)).orElseThrow().id())
                    .as(key)
                    .isGreaterThanOrEqualTo(Long.parseLong(id));
            default -> throw new AssertionError(key);
          }
        });
    return true;
  }

  private static long count(String words) {
    return Long.parseLong(words.substring(words.lastIndexOf(' ') + 1));
  }

  /**
   * The tests' class path without the peer that reads calendars: it offers the machine zones of its
   * own, which takes seconds in each new process, and a life here is shorter than that.
   */
  private static String classPath() {
    String all =
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
    return Stream.of(all.split(File.pathSeparator, -1))
        .filter(entry -> !Path.of(entry).getFileName().toString().startsWith("ical4j"))
        .collect(Collectors.joining(File.pathSeparator));
  }

  /** Lets it live so long after its first line, and gives all the lines that it said. */
  private static List<String> killAfter(long millis, Path ledger, Path photos)
      throws IOException, InterruptedException {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                classPath(),
                Child.class.getName(),
                ledger.toString(),
                photos.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    List<String> heard = new CopyOnWriteArrayList<>();
    try (var out = child.inputReader()) {
      String first = out.readLine();
      assertThat(first).as("the first line").isNotNull();
      heard.add(first);
      Thread ears = new Thread(() -> out.lines().forEach(heard::add));
      ears.start();
      ears.join(millis + 1);
      child.toHandle().destroyForcibly();
      assertThat(child.waitFor()).as("killed, not ended").isNotZero();
      ears.join();
    }
    List<String> whole = new ArrayList<>(heard);
    // The kill may have cut the last line.
    if (!whole.get(whole.size() - 1).endsWith(".")) {
      whole.remove(whole.size() - 1);
    }
    return whole.stream().map(line -> line.substring(0, line.length() - 1)).toList();
  }

  /**
   * The process that gets killed: says a line, ended by a full stop, for each thing it has kept.
   */
  static final class Child {
    private Child() {}

    public static void main(String[] args) throws InterruptedException {
      try (Ledger ledger = Ledger.open(Path.of(args[0]), CLOCK)) {
        Thread importing = new Thread(() -> importPhotos(ledger, Path.of(args[1])));
        importing.start();
        edit(ledger);
        importing.join();
      }
    }

    private static synchronized void say(String key, Object value) {
      System.out.print(key + "\t" + value + ".\n");
      System.out.flush();
    }

    private static void importPhotos(Ledger ledger, Path photos) {
      Importer importer = new Importer(ledger, NO_ZONES, new SpaEphemeris());
      List<Path> files = files(photos);
      Set<Path> known =
          ledger.read(
              session ->
                  session.files().all().stream().map(StoredFile::path).collect(Collectors.toSet()));
      files.removeAll(known);
      for (int from = 0; from < files.size(); from += BATCH) {
        importer.run(
            files.subList(from, Math.min(files.size(), from + BATCH)),
            new ImportOptions(OwnerWord.NOTHING, 1, 25),
            new ImportProgress() {
              @Override
              public void started(int files) {}

              @Override
              public void done(FileReport file) {
                if (file.shotId() != null) {
                  say("file " + file.path(), file.shotId());
                }
              }
            });
      }
    }

    private static List<Path> files(Path photos) {
      try (Stream<Path> files = Files.list(photos)) {
        return new ArrayList<>(files.sorted().toList());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    private static void edit(Ledger ledger) {
      Corrections corrections = new Corrections(ledger, NO_ZONES, new SpaEphemeris(), CLOCK);
      long from =
          ledger.<Long>read(
              session -> session.settings().find("turns").map(Long::parseLong).orElse(0L));
      for (long turn = from + 1; ; turn++) {
        String number = " " + turn;
        long spotId =
            ledger.write(
                session -> {
                  session.settings().set("turns", number.strip());
                  return session.spots().insert(spot(0, "Made" + number));
                });
        say("spot " + spotId, "Made" + number);
        ledger.change(session -> session.spots().update(spot(spotId, "Named" + number)));
        say("spot " + spotId, "Named" + number);
        long listId =
            ledger.write(session -> session.shortlists().create("List" + number, "Hello"));
        say("list " + listId, "List" + number);
        Shortlist.Moment moment =
            new Shortlist.Moment(
                CLOCK.instant().atOffset(ZoneOffset.UTC),
                CLOCK.instant().atOffset(ZoneOffset.UTC),
                LightClass.RIM,
                new Bearing(5));
        long entryId =
            ledger.write(
                session ->
                    session
                        .shortlists()
                        .add(listId, new Shortlist.Entry(spotId, moment, null, "Words")));
        say("entry " + entryId, listId);
        List<Long> shots =
            ledger.read(
                session -> session.files().all().stream().limit(30).map(f -> f.shotId()).toList());
        if (!shots.isEmpty() && shots.get((int) (turn % shots.size())) != null) {
          long shotId = shots.get((int) (turn % shots.size()));
          Long correction =
              corrections
                  .apply(
                      List.of(shotId), Correction.of(new FacingWord.Looked(Bearing.of(turn * 7.0))))
                  .id();
          if (correction != null) {
            say("correction " + correction, shotId);
          }
        }
      }
    }

    private static Spot spot(long id, String name) {
      return new Spot(
          id, name, null, new GeoPoint(30 + id * 1e-4, 5), null, false, List.of(), "", "");
    }
  }
}

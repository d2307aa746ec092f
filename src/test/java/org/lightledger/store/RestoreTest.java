package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Stream;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.share.Returned;
import org.lightledger.spot.Hazard;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteDataSource;

class RestoreTest {
  private static final Clock CLOCK = Clock.fixed(Samples.NOW, ZoneOffset.UTC);

  @TempDir Path root;
  private Path folder;
  private Path backup;

  /** A backup with one spot, and a ledger with another. */
  @BeforeEach
  void makeBoth() {
    folder = root.resolve("ledger");
    backup = root.resolve("backup.gpkg");
    try (Ledger old = Samples.open(root.resolve("elsewhere"))) {
      add(old, "From the backup");
      old.backup(backup);
    }
    try (Ledger present = Samples.open(folder)) {
      add(present, "Present");
    }
  }

  private static void add(Ledger ledger, String name) {
    ledger.change(session -> session.spots().insert(Samples.spot(name, new GeoPoint(1, 2))));
  }

  private static List<String> names(Path folder) {
    try (Ledger ledger = Samples.open(folder)) {
      return ledger.read(
          session -> session.spots().all().stream().map(spot -> spot.name()).toList());
    }
  }

  @Test
  void makesALedgerWhereThereIsNone() throws IOException {
    Path fresh = root.resolve("fresh");

    assertThat(Ledger.restore(backup, fresh, false, CLOCK)).isEmpty();
    assertThat(names(fresh)).containsExactly("From the backup");
    assertThat(LedgerCheck.run(fresh)).isEmpty();
    assertThat(unfinished(fresh)).isEmpty();
  }

  @Test
  void refusesALedgerThatIsThereUnlessToldToMoveItAside() throws IOException {
    assertThatThrownBy(() -> Ledger.restore(backup, folder, false, CLOCK))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("--replace moves it aside first");
    assertThat(names(folder)).containsExactly("Present");

    Path aside = Ledger.restore(backup, folder, true, CLOCK).orElseThrow();
    assertThat(names(folder)).containsExactly("From the backup");
    assertThat(aside.getFileName()).hasToString("ledger-before-20260502-101530.gpkg");
    Path away = Files.createDirectory(root.resolve("away"));
    Files.copy(aside, away.resolve("ledger.gpkg"));
    assertThat(names(away)).containsExactly("Present");
    assertThat(Files.isSameFile(aside, folder.resolve("ledger.gpkg"))).isFalse();
  }

  @Test
  void twoReplacedLedgersOfOneSecondAreBothKept() {
    Path first = Ledger.restore(backup, folder, true, CLOCK).orElseThrow();
    Path second = Ledger.restore(backup, folder, true, CLOCK).orElseThrow();

    assertThat(second).isNotEqualTo(first).exists();
    assertThat(first).exists();
  }

  @Test
  void refusesWhileAProgramHasTheLedgerOpen() {
    try (Ledger open = Samples.open(folder)) {
      assertThat(open.<Long>read(session -> session.spots().count())).isEqualTo(1);
      assertThatThrownBy(() -> Ledger.restore(backup, folder, true, CLOCK))
          .isInstanceOf(LedgerException.class)
          .hasMessage("another program has this ledger open; close it, then try again");
      add(open, "Still here");
    }
    assertThat(names(folder)).containsExactly("Present", "Still here");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "no database", "SQLite format 3\0 and then nothing"})
  void refusesWhatIsNoBackup(String content) throws IOException {
    Path bad = Files.writeString(root.resolve("bad.gpkg"), content);

    assertThatThrownBy(() -> Ledger.restore(bad, folder, true, CLOCK))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("expected a sound backup")
        .hasMessageContaining("nothing was changed");
    untouched();
  }

  @Test
  void refusesADamagedBackup() throws IOException {
    byte[] bytes = Files.readAllBytes(backup);
    for (int index = bytes.length / 2; index < bytes.length / 2 + 20_000; index++) {
      bytes[index] = 0x55;
    }
    Files.write(backup, bytes);

    assertThatThrownBy(() -> Ledger.restore(backup, folder, true, CLOCK))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("expected a sound backup");
    untouched();
  }

  @ParameterizedTest
  @ValueSource(strings = {"-wal", "-journal"})
  void refusesACopyWhoseLogLiesBesideIt(String log) throws IOException {
    Path copy = root.resolve("copy.gpkg");
    try (Ledger live = Samples.open(root.resolve("elsewhere"))) {
      add(live, "In the log alone");
      Path file = root.resolve("elsewhere").resolve("ledger.gpkg");
      Files.copy(file, copy);
      Files.copy(file.resolveSibling("ledger.gpkg-wal"), root.resolve("copy.gpkg" + log));
    }

    assertThatThrownBy(() -> Ledger.restore(copy, folder, true, CLOCK))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("expected a backup in one file")
        .hasMessageContaining("copy.gpkg" + log)
        .hasMessageContaining("\"backup\"");
    untouched();
    Files.write(root.resolve("copy.gpkg" + log), new byte[0]);
    Ledger.restore(copy, folder, true, CLOCK);
    assertThat(names(folder)).containsExactly("From the backup");
  }

  @Test
  void refusesAnotherProgramsDatabase() throws SQLException, IOException {
    Path other = root.resolve("other.gpkg");
    sql(other, "CREATE TABLE t (x)");

    assertThatThrownBy(() -> Ledger.restore(other, folder, true, CLOCK))
        .hasMessageContaining("found: a database of something else");
    untouched();
  }

  @Test
  void refusesANewerBackup() throws SQLException, IOException {
    sql(
        backup,
        "INSERT INTO flyway_schema_history SELECT installed_rank + 1, '999', description, type,"
            + " script, checksum, installed_by, installed_on, execution_time, success"
            + " FROM flyway_schema_history ORDER BY installed_rank DESC LIMIT 1");

    assertThatThrownBy(() -> Ledger.restore(backup, folder, true, CLOCK))
        .hasMessageContaining("found version 999; open it with the newer Lightledger");
    untouched();
  }

  @Test
  void bringsAnOlderBackupUpToDate() throws IOException, SQLException {
    Path old = ofVersion("4");
    byte[] before = Files.readAllBytes(old);

    Ledger.restore(old, folder, true, CLOCK);

    assertThat(names(folder)).isEmpty();
    assertThat(LedgerCheck.run(folder)).isEmpty();
    assertThat(Files.readAllBytes(old)).as("the backup itself").isEqualTo(before);
  }

  private Path ofVersion(String version) {
    Path old = root.resolve("old.gpkg");
    SQLiteDataSource source =
        new SQLiteDataSource() {
          @Override
          public SQLiteConnection getConnection(@Nullable String user, @Nullable String password)
              throws SQLException {
            SQLiteConnection connection = super.getConnection(user, password);
            SpatialFunctions.register(connection);
            return connection;
          }
        };
    source.setUrl("jdbc:sqlite:" + old.toUri());
    Flyway.configure()
        .dataSource(source)
        .locations("classpath:schema")
        .target(version)
        .load()
        .migrate();
    return old;
  }

  @Test
  void anOlderBackupBringsItsDeletedSpotsAndWhatClientsSaidAlong() throws SQLException {
    Path old = ofVersion("11");
    byte[] place = GeoPackageGeometry.write(new GeoPoint(41.93, -6.42));
    try (Connection connection = LedgerFile.at(old).connectForWriting();
        Statement statement = connection.createStatement()) {
      for (String sql :
          List.of(
              "INSERT INTO spots (id, geom, name) VALUES (1, x'"
                  + HexFormat.of().formatHex(place)
                  + "', 'Mill')",
              "INSERT INTO dropped_spots (id, latitude_deg, longitude_deg, position_by_owner,"
                  + " name, open, notes, cautions, facings, hazards)"
                  + " VALUES (2, 41.9, -6.4, 0, 'Well', 0, '', '', '[]', '[\"WATER\"]')",
              "INSERT INTO shortlists (id, title) VALUES (1, 'Autumn')",
              "INSERT INTO shares (id, shortlist_id, token, token_sha256, secret, key_id, as_file,"
                  + " exact_positions, shows_plan, shows_questions, created_ms)"
                  + " VALUES (1, 1, 'abcdefghijklmnopqrstuv', lower(hex(randomblob(32))),"
                  + " lower(hex(randomblob(32))), lower(hex(randomblob(8))), 0, 0, 0, 0, 0)",
              "INSERT INTO share_picks (share_id, spot_id, favourite, words)"
                  + " VALUES (1, 1, 1, 'This one')")) {
        statement.execute(sql);
      }
    }

    Ledger.restore(old, folder, true, CLOCK);

    try (Ledger ledger = Samples.open(folder)) {
      ledger.change(
          session -> {
            assertThat(session.replies().of(1).picks())
                .containsExactly(new Returned.Pick(1, true, "This one"));
            assertThat(session.droppedSpots().bringBack(2).name()).isEqualTo("Well");
            assertThat(session.hazards().of(2)).containsExactly(Hazard.WATER);
            assertThat(session.traits().of(2)).isEmpty();
            assertThat(session.drives().hours(2)).isEmpty();
            assertThat(session.skylines().measured(2)).isEmpty();
          });
    }
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }

  /** The very case a backup is for; the damaged file and its log are kept. */
  @Test
  void replacesADamagedLedger() throws IOException {
    Path file = folder.resolve("ledger.gpkg");
    Files.writeString(file, "this was a ledger");
    Files.writeString(folder.resolve("ledger.gpkg-wal"), "and this its log");

    Path aside = Ledger.restore(backup, folder, true, CLOCK).orElseThrow();

    assertThat(names(folder)).containsExactly("From the backup");
    assertThat(aside).hasContent("this was a ledger");
    assertThat(aside.resolveSibling(aside.getFileName() + "-wal")).hasContent("and this its log");
  }

  /** Killed before each of its steps in turn: the old ledger or the new one is there, whole. */
  @Test
  void aKillLeavesTheOldLedgerOrTheNewOne() throws Exception {
    List<String> steps =
        List.of(
            "make the folder",
            "copy the backup",
            "check the copy",
            "bring the copy up to date",
            "close the copy",
            "close the ledger",
            "name the ledger",
            "name the copy",
            "tell");
    for (String step : steps) {
      assertThat(killBefore(step)).as("killed before it was to %s", step).isNotZero();
      assertThat(folder.resolve("ledger.gpkg")).exists();
      assertThat(LedgerCheck.run(folder)).as(step).isEmpty();
      assertThat(names(folder))
          .as(step)
          .containsExactly(step.equals("tell") ? "From the backup" : "Present");
    }
    // The next restore clears away what the killed ones left, and no more.
    Ledger.restore(backup, folder, true, CLOCK);
    assertThat(names(folder)).containsExactly("From the backup");
    assertThat(unfinished(folder)).isEmpty();
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files.filter(file -> file.getFileName().toString().startsWith("ledger-before-")))
          .as("the ledger before the killed restore, and the one before this")
          .hasSize(2);
    }
  }

  private int killBefore(String step) throws IOException, InterruptedException {
    Process child =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Child.class.getName(),
                backup.toString(),
                folder.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    try (var out = child.inputReader();
        var in = child.outputWriter()) {
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        if (line.equals(step)) {
          child.destroyForcibly();
          break;
        }
        in.write("\n");
        in.flush();
      }
    }
    return child.waitFor();
  }

  /** Restores, and waits before each step until it is told to go on. */
  static final class Child {
    private Child() {}

    public static void main(String[] args) {
      new Restore(
              Path.of(args[1]),
              step -> {
                System.out.println(step);
                System.out.flush();
                try {
                  System.in.read();
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              })
          .from(Path.of(args[0]), true, Samples.NOW);
    }
  }

  private void untouched() throws IOException {
    assertThat(names(folder)).containsExactly("Present");
    assertThat(unfinished(folder)).isEmpty();
    try (Stream<Path> files = Files.list(folder)) {
      assertThat(files.filter(file -> file.getFileName().toString().startsWith("ledger-before")))
          .isEmpty();
    }
  }

  private static List<Path> unfinished(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(file -> file.toString().contains(".part")).toList();
    }
  }

  private static void sql(Path file, String statement) throws SQLException {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file.toUri());
        Statement sql = connection.createStatement()) {
      sql.execute(statement);
    }
  }
}

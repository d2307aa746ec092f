package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Facing;

class LedgerCheckTest extends LedgerTestBase {

  @Test
  void aSoundLedgerIsSaidToBeSoundWhileItIsWrittenTo() {
    fill();
    ledger.change(
        session -> {
          session.spots().insert(Samples.spot("Not committed yet", CHAPEL));
          assertThat(LedgerCheck.run(folder)).isEmpty();
        });
  }

  @Test
  void aFolderWithoutALedgerIsFound(@TempDir Path empty) {
    assertThat(LedgerCheck.run(empty))
        .singleElement()
        .extracting(Finding::found)
        .isEqualTo("no file named ledger.gpkg");
    assertThat(empty).isEmptyDirectory();
  }

  @Test
  void aFileThatIsNoDatabaseIsFound(@TempDir Path other) throws IOException {
    Files.writeString(other.resolve("ledger.gpkg"), "This is no database at all. ".repeat(100));
    assertThat(LedgerCheck.run(other))
        .singleElement()
        .extracting(Finding::remedy)
        .asString()
        .contains("go back to the latest backup");
  }

  @Test
  void damageInTheFileIsFound() throws IOException {
    damageTheEnd();
    assertThat(LedgerCheck.run(folder))
        .isNotEmpty()
        .anyMatch(finding -> finding.remedy().contains("go back to the latest backup"));
  }

  /** Each damage that another program could do, and words of the finding. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          PRAGMA application_id = 1                              | application_id 1
          PRAGMA user_version = 10400                            | user_version 10400
          DELETE FROM rtree_spots_geom                           | 1 rows of spots that the spatial index misses
          UPDATE rtree_shots_geom SET minx = 5, maxx = 5         | 1 rows of shots that the spatial index misses
          INSERT INTO rtree_spots_geom VALUES (9, 1, 1, 1, 1)    | 1 places in the spatial index that belong to no position of spots
          DROP TRIGGER rtree_spots_geom_update3                  | a file without rtree_spots_geom_update3
          DROP TRIGGER shots_stock_update                        | a file without shots_stock_update
          DROP TRIGGER rtree_obstructions_geom_delete            | a file without rtree_obstructions_geom_delete
          DROP TRIGGER maps_stock_insert                         | a file without maps_stock_insert
          DROP TABLE map_stock                                   | a file without map_stock
          DROP TABLE settings                                    | a file without settings
          DELETE FROM gpkg_extensions WHERE table_name = 'spots' | spots without its rows in the gpkg_ tables
          UPDATE facings SET spot_id = 77                        | row 1 of facings names a row of spots that is not there
          UPDATE spots SET geom = x'47500001e610000001010000000000000000806640000000000000f83f' | nothing
          UPDATE spots SET geom = x'47500001e610000001010000000000000000c0724000000000000045c0' | row 1 of spots with a position that is not on the earth
          """)
  void whatAnotherProgramBreaksIsFound(String damage, String found) throws SQLException {
    fill();
    elsewhere(damage);
    List<Finding> findings = LedgerCheck.run(folder);
    if (found.equals("nothing")) {
      assertThat(findings).isEmpty();
    } else {
      assertThat(findings).hasSize(1);
      assertThat(findings.get(0).found()).contains(found);
      assertThat(findings.get(0).expected()).isNotBlank();
      assertThat(findings.get(0).remedy()).isNotBlank();
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      textBlock =
          """
          DELETE FROM rtree_spots_geom
          UPDATE rtree_shots_geom SET minx = 5, maxx = 5
          INSERT INTO rtree_shots_geom VALUES (9, 1, 1, 1, 1)
          """)
  void rebuildingTheSpatialIndexesRepairsThem(String damage) throws SQLException {
    fill();
    elsewhere(damage);
    assertThat(LedgerCheck.run(folder)).isNotEmpty();
    ledger.rebuildSpatialIndexes();
    assertThat(LedgerCheck.run(folder)).isEmpty();
    List<NearSpot> near = ledger.read(session -> session.spotSearch().within(CHAPEL, 10));
    assertThat(near).hasSize(1);
  }

  @Test
  void aBackupHoldsWhatWasCommittedAndOpensAsALedger(@TempDir Path other) throws IOException {
    fill();
    Path copy = other.resolve("ledger.gpkg");
    ledger.change(
        session -> {
          session.spots().insert(Samples.spot("Not committed yet", CHAPEL));
          ledger.backup(copy);
        });
    insertSpot("After the backup", CHAPEL);
    try (Stream<Path> files = Files.list(other)) {
      assertThat(files).containsExactly(copy);
    }
    assertThat(LedgerCheck.run(other)).isEmpty();
    try (Ledger restored = Samples.open(other)) {
      assertThat(restored.read(session -> session.spots().all()).toString())
          .contains("Chapel")
          .doesNotContain("Not committed yet", "After the backup");
      long id = restored.write(session -> session.spots().insert(Samples.spot("New", CHAPEL)));
      assertThat(id).isEqualTo(2);
    }
  }

  @Test
  void aBackupOverwritesNothing() throws IOException {
    Path taken = Files.writeString(folder.resolve("taken.gpkg"), "precious");
    assertThatThrownBy(() -> ledger.backup(taken))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.STORAGE))
        .hasMessage(
            "expected the name of a new file, found that taken.gpkg exists; choose another name,"
                + " or move that file away");
    assertThat(taken).hasContent("precious");
  }

  @Test
  void aBackupThatCanNotBeMadeLeavesNothing() {
    assertThatThrownBy(() -> ledger.backup(folder.resolve("no-such-folder").resolve("b.gpkg")))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("the backup b.gpkg could not be written");
  }

  @Test
  void aDamagedLedgerMakesNoBackup(@TempDir Path other) throws IOException {
    damageTheEnd();
    ledger = Samples.open(folder);
    assertThatThrownBy(() -> ledger.backup(other.resolve("ledger.gpkg")))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.NOT_A_LEDGER));
    assertThat(other).isEmptyDirectory();
  }

  /** Fills the ledger, closes it, and overwrites its last pages. */
  private void damageTheEnd() throws IOException {
    ledger.change(
        session -> {
          for (int spot = 0; spot < 500; spot++) {
            String name = "Spot with a rather long name, number " + spot;
            session.spots().insert(Samples.spot(name, CHAPEL));
          }
        });
    ledger.close();
    Path file = folder.resolve("ledger.gpkg");
    byte[] damage = new byte[8192];
    Arrays.fill(damage, (byte) 0xAA);
    try (RandomAccessFile open = new RandomAccessFile(file.toFile(), "rw")) {
      open.seek(Files.size(file) - damage.length);
      open.write(damage);
    }
  }

  private void fill() {
    ledger.change(
        session -> {
          long spot =
              session
                  .spots()
                  .insert(
                      Samples.spot(
                          "Chapel",
                          CHAPEL,
                          new Facing(new Bearing(10), 20, Facing.Origin.OWNER, 0)));
          session
              .shots()
              .insert(
                  Samples.shot(CHAPEL, Instant.EPOCH),
                  Samples.sha256(1),
                  Samples.sun(95, 12),
                  spot);
        });
  }

  /** Runs a statement with foreign keys off, as a careless program does. */
  private void elsewhere(String sql) throws SQLException {
    try (Connection connection = LedgerFile.in(folder).connectForWriting();
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA foreign_keys = OFF");
      statement.execute(sql);
    }
  }
}

package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.IntStream;
import org.junit.jupiter.api.RepeatedTest;
import org.junit.jupiter.api.RepetitionInfo;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;

@Timeout(value = 2, unit = TimeUnit.MINUTES)
class LedgerTest extends LedgerTestBase {

  @Test
  void aFolderThatIsNotThereIsMade(@TempDir Path parent) {
    Path made = parent.resolve("deep").resolve("new");
    Samples.open(made).close();
    assertThat(made.resolve("ledger.gpkg")).isRegularFile();
    assertThat(LedgerCheck.run(made)).isEmpty();
  }

  @Test
  void aFolderMayHaveAnyName(@TempDir Path parent) {
    Path odd = parent.resolve("What? 100% ü #1; file=x&mode=memory");
    try (Ledger opened = Samples.open(odd)) {
      opened.change(session -> session.spots().insert(Samples.spot("Chapel", CHAPEL)));
      opened.backup(odd.resolve("copy? 1.gpkg"));
    }
    assertThat(LedgerCheck.run(odd)).isEmpty();
    assertThat(parent).isDirectoryContaining(odd::equals);
    assertThat(odd.resolve("ledger.gpkg")).isNotEmptyFile();
    assertThat(odd.resolve("copy? 1.gpkg")).isNotEmptyFile();
  }

  @Test
  void whatWasWrittenIsThereAfterOpeningAgain() {
    long id = insertSpot("Chapel", CHAPEL);
    ledger.close();
    assertThat(folder.resolve("ledger.gpkg-wal")).doesNotExist();
    ledger = Samples.open(folder);
    assertThat(names()).containsExactly("Chapel");
    assertThat(insertSpot("Bridge", CHAPEL)).isEqualTo(id + 1);
  }

  @Test
  void workThatThrowsLeavesNothingBehind() {
    long before = ledger.stockVersion();
    assertThatThrownBy(
            () ->
                ledger.change(
                    session -> {
                      session.spots().insert(Samples.spot("Chapel", CHAPEL));
                      session.settings().set("name", "value");
                      throw new IllegalStateException("the owner pulled the plug");
                    }))
        .hasMessage("the owner pulled the plug");
    assertThatThrownBy(
            () ->
                ledger.change(
                    session -> {
                      session.spots().insert(Samples.spot("Chapel", CHAPEL));
                      session.spots().insert(Samples.spot(" ", CHAPEL));
                    }))
        .isInstanceOf(LedgerException.class);
    assertThat(names()).isEmpty();
    assertThat(number("SELECT count(*) FROM settings")).isZero();
    assertThat(number("SELECT count(*) FROM rtree_spots_geom")).isZero();
    assertThat(ledger.stockVersion()).isEqualTo(before);
    assertThat(ledger.connections()).isEqualTo(2);
  }

  @Test
  void aReadSeesOneStateHoweverLongItTakesAndNobodyWaits() throws Exception {
    insertSpot("Chapel", CHAPEL);
    CountDownLatch reading = new CountDownLatch(1);
    CountDownLatch written = new CountDownLatch(1);
    ExecutorService reader = Executors.newSingleThreadExecutor();
    try {
      Future<List<Long>> counts =
          reader.submit(
              () ->
                  ledger.read(
                      session -> {
                        long before = session.spots().count();
                        reading.countDown();
                        await(written);
                        return List.of(before, session.spots().count());
                      }));
      await(reading);
      insertSpot("Bridge", CHAPEL);
      written.countDown();
      assertThat(counts.get()).containsExactly(1L, 1L);
      assertThat(names()).containsExactly("Chapel", "Bridge");
    } finally {
      reader.shutdownNow();
    }
  }

  @Test
  void whatIsBeingWrittenIsNotReadBeforeItIsWhole() {
    ledger.change(
        session -> {
          session.spots().insert(Samples.spot("Chapel", CHAPEL));
          assertThat(names()).isEmpty();
          session.spots().insert(Samples.spot("Bridge", CHAPEL));
          assertThat(session.spots().all()).hasSize(2);
        });
    assertThat(names()).hasSize(2);
  }

  @Test
  void manyThreadsReadAndWriteAtOnce() throws Exception {
    int threads = 8;
    int rounds = 25;
    ExecutorService pool = Executors.newFixedThreadPool(threads);
    try {
      List<Future<?>> running = new ArrayList<>();
      for (int thread = 0; thread < threads; thread++) {
        running.add(
            pool.submit(
                () -> {
                  for (int round = 0; round < rounds; round++) {
                    ledger.change(
                        session -> {
                          session.spots().insert(Samples.spot("One", CHAPEL));
                          session.spots().insert(Samples.spot("Two", CHAPEL));
                        });
                    assertThat(names().size() % 2).isZero();
                  }
                }));
      }
      for (Future<?> future : running) {
        future.get();
      }
    } finally {
      pool.shutdownNow();
    }
    assertThat(names()).hasSize(2 * threads * rounds);
    assertThat(ledger.connections()).isLessThanOrEqualTo(threads + 1);
  }

  @Test
  void aReadCanNotChangeAnything() {
    assertThatThrownBy(
            () -> ledger.read(session -> session.spots().insert(Samples.spot("X", CHAPEL))))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("made inside Ledger.read instead of Ledger.write");
    assertThat(names()).isEmpty();
  }

  @Test
  void aWriteInsideAWriteIsRefused() {
    assertThatThrownBy(() -> ledger.change(session -> insertSpot("Chapel", CHAPEL)))
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("a write inside a write: use the session that is at hand");
    assertThat(names()).isEmpty();
  }

  @Test
  void aWriteDoesNotCloseItsOwnLedger() {
    assertThatThrownBy(() -> ledger.change(session -> ledger.close()))
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("a write can not close its own ledger; let it end first");
    insertSpot("Chapel", CHAPEL);
  }

  @Test
  void aSessionEndsWithItsWork() {
    AtomicReference<LedgerSession> kept = new AtomicReference<>();
    ledger.change(kept::set);
    assertThatThrownBy(() -> kept.get().spots().count())
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("this session is over");
  }

  @Test
  void aClosedLedgerSaysSo() {
    ledger.close();
    ledger.close();
    assertThatThrownBy(this::names)
        .isInstanceOf(IllegalStateException.class)
        .hasMessage("the ledger is closed; open it again");
    assertThatThrownBy(() -> insertSpot("Chapel", CHAPEL))
        .isInstanceOf(IllegalStateException.class);
  }

  @Test
  void aReadUnderWayOutlivesTheClosing() throws Exception {
    insertSpot("Chapel", CHAPEL);
    CountDownLatch reading = new CountDownLatch(1);
    CountDownLatch closed = new CountDownLatch(1);
    ExecutorService reader = Executors.newSingleThreadExecutor();
    try {
      Future<Long> count =
          reader.submit(
              () ->
                  ledger.read(
                      session -> {
                        reading.countDown();
                        await(closed);
                        return session.spots().count();
                      }));
      await(reading);
      ledger.close();
      assertThat(ledger.connections()).isEqualTo(1);
      closed.countDown();
      assertThat(count.get()).isEqualTo(1);
    } finally {
      reader.shutdownNow();
    }
    assertThat(ledger.connections()).isZero();
  }

  @Test
  void theStockVersionGrowsWithEachChangeOfTheStockAndOnlyThen() throws SQLException {
    long id = insertSpot("Chapel", CHAPEL);
    List<Runnable> changes =
        List.of(
            () -> insertSpot("Bridge", CHAPEL),
            () -> ledger.change(session -> session.spots().update(spot(id))),
            () -> ledger.change(session -> session.spots().move(id, CHAPEL, null)),
            () ->
                ledger.change(
                    session ->
                        session
                            .spots()
                            .setFacings(
                                id,
                                List.of(new Facing(new Bearing(1), 2, Facing.Origin.OWNER, 0)),
                                Facing.Origin.OWNER)),
            () ->
                ledger.change(
                    session ->
                        session
                            .shots()
                            .insert(
                                Samples.shot(CHAPEL, Instant.EPOCH), Samples.sha256(1), null, id)),
            () -> ledger.change(session -> session.shots().assign(1, null)),
            () -> ledger.change(session -> session.spots().delete(id)));
    for (Runnable change : changes) {
      long before = ledger.stockVersion();
      change.run();
      assertThat(ledger.stockVersion()).isGreaterThan(before);
    }
    long before = ledger.stockVersion();
    ledger.change(session -> session.settings().set("name", "value"));
    ledger.change(session -> session.shortlists().create("Ana and Luis", ""));
    assertThat(ledger.stockVersion()).isEqualTo(before);
    elsewhere("UPDATE spots SET name = 'Renamed in another program'");
    assertThat(ledger.stockVersion()).isGreaterThan(before);
  }

  @Test
  void theTableOfContentsTellsWhenEachTableChanged() {
    Map<String, String> before = lastChanges();
    insertSpot("Chapel", CHAPEL);
    Map<String, String> after = lastChanges();
    assertThat(after.get("spots")).isEqualTo("2026-05-02T10:15:30.123Z");
    after.remove("spots");
    before.remove("spots");
    assertThat(after).isEqualTo(before);
  }

  @Test
  void aFileOfSomethingElseIsLeftAlone(@TempDir Path other) throws Exception {
    Path file = other.resolve("ledger.gpkg");
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE recipes (name TEXT)");
    }
    byte[] before = Files.readAllBytes(file);
    assertThatThrownBy(() -> Samples.open(other))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.NOT_A_LEDGER))
        .hasMessageContaining("expected a ledger, found a database of something else");
    assertThat(Files.readAllBytes(file)).isEqualTo(before);

    Files.writeString(file, "This is no database at all, and long enough to be looked at.");
    assertThatThrownBy(() -> Samples.open(other))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("damaged or is no ledger");
  }

  @Test
  void aLedgerOfANewerVersionIsLeftAlone() throws SQLException {
    ledger.close();
    elsewhere(
        "INSERT INTO flyway_schema_history (installed_rank, version, description, type, script,"
            + " installed_by, execution_time, success)"
            + " VALUES (99, '99', 'future', 'SQL', 'V99__future.sql', '', 0, 1)");
    assertThatThrownBy(() -> Samples.open(folder))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.NEWER))
        .hasMessageContaining("found version 99");
  }

  @Test
  void aFolderThatCanNotBeMadeIsNamedAsTheProblem() throws IOException {
    Path file = Files.writeString(folder.resolve("a-file"), "in the way");
    assertThatThrownBy(() -> Samples.open(file.resolve("ledger")))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.STORAGE))
        .hasMessageContaining("the ledger's folder could not be made or written");
  }

  @Test
  void ledgersOpenedAtTheSameTimeAreMadeOnce(@TempDir Path fresh) throws Exception {
    ExecutorService pool = Executors.newFixedThreadPool(6);
    try {
      List<Future<Ledger>> opened =
          IntStream.range(0, 6).mapToObj(i -> pool.submit(() -> Samples.open(fresh))).toList();
      for (Future<Ledger> future : opened) {
        future.get().close();
      }
    } finally {
      pool.shutdownNow();
    }
    assertThat(LedgerCheck.run(fresh)).isEmpty();
  }

  @Test
  void aWriterWaitsForAnotherProgram() throws Exception {
    try (ChildProcess other = ChildProcess.start("hold", folder)) {
      assertThat(other.answer()).isEqualTo("holding");
      ExecutorService writer = Executors.newSingleThreadExecutor();
      try {
        Future<Long> written = writer.submit(() -> insertSpot("Chapel", CHAPEL));
        assertThat(names()).as("reading goes on meanwhile").isEmpty();
        other.release();
        assertThat(other.answer()).isEqualTo("done");
        assertThat(written.get()).isEqualTo(2);
      } finally {
        writer.shutdownNow();
      }
    }
    assertThat(names()).containsExactly("From the other program", "Chapel");
  }

  @Test
  void aWriterThatWaitsTooLongIsToldWhy() throws Exception {
    try (ChildProcess other = ChildProcess.start("hold", folder)) {
      assertThat(other.answer()).isEqualTo("holding");
      assertThatThrownBy(() -> insertSpot("Chapel", CHAPEL))
          .isInstanceOfSatisfying(
              LedgerException.class,
              problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.BUSY))
          .hasMessageContaining("another program is writing to this ledger");
      other.release();
      assertThat(other.answer()).isEqualTo("done");
    }
    insertSpot("Chapel", CHAPEL);
    assertThat(names()).containsExactly("From the other program", "Chapel");
  }

  @RepeatedTest(5)
  void aWriterThatIsKilledLeavesEveryCommittedBatchAndNoHalf(RepetitionInfo repetition)
      throws Exception {
    int committed = 0;
    try (ChildProcess other = ChildProcess.start("write batches", folder)) {
      while (committed < 3 * repetition.getCurrentRepetition()) {
        assertThat(other.answer()).isEqualTo(String.valueOf(committed));
        committed++;
      }
      // Somewhere in the middle of the next batches.
      Thread.sleep(7L * repetition.getCurrentRepetition());
      committed += other.kill().size();
    }
    assertThat(LedgerCheck.run(folder)).isEmpty();
    List<Spot> spots = ledger.read(session -> session.spots().all());
    // The last batch may have been committed without having been said.
    assertThat(spots.size() / ChildProcess.SPOTS_IN_A_BATCH).isBetween(committed, committed + 1);
    assertThat(spots.size() % ChildProcess.SPOTS_IN_A_BATCH).isZero();
    assertThat(spots).allMatch(spot -> spot.facings().size() == 1);
    assertThat(number("SELECT count(*) FROM shots")).isEqualTo(spots.size());
    insertSpot("Chapel", CHAPEL);
  }

  private List<String> names() {
    return ledger.read(session -> session.spots().all()).stream().map(Spot::name).toList();
  }

  private Spot spot(long id) {
    return ledger.read(session -> session.spots().find(id)).orElseThrow();
  }

  private Map<String, String> lastChanges() {
    return ledger.read(
        session -> {
          Map<String, String> changes = new HashMap<>();
          session
              .call("SELECT table_name, last_change FROM gpkg_contents")
              .each(row -> changes.put(row.text(), row.text()));
          return changes;
        });
  }

  /** Runs a statement over another connection, as another program does. */
  private void elsewhere(String sql) throws SQLException {
    try (Connection connection = LedgerFile.in(folder).connectForWriting();
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  private static void await(CountDownLatch latch) {
    try {
      if (!latch.await(1, TimeUnit.MINUTES)) {
        throw new AssertionError("waited for a minute in vain");
      }
    } catch (InterruptedException e) {
      throw new AssertionError(e);
    }
  }
}

package org.lightledger.store;

import java.nio.file.Path;
import java.time.Clock;
import java.util.Optional;
import java.util.concurrent.ConcurrentLinkedDeque;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * The ledger of a folder. Safe for use by several threads: one writes at a time, any number read,
 * each read from the state at its start. Another program may use the same ledger meanwhile.
 *
 * <p>A committed write is on the disk: neither a process that dies nor a power cut takes it away.
 */
public final class Ledger implements AutoCloseable {
  /** Reading connections kept for the next reads; more are opened when more read at once. */
  private static final int IDLE_READERS = 8;

  private final LedgerFile file;
  private final Clock clock;

  /** Fair, so that an import gets its turn however busily somebody edits. */
  private final ReentrantLock writing = new ReentrantLock(true);

  private final ConcurrentLinkedDeque<LedgerSession> idle = new ConcurrentLinkedDeque<>();
  private final AtomicInteger connections = new AtomicInteger();
  private @Nullable LedgerSession writer;
  private volatile boolean closed;

  private Ledger(LedgerFile file, Clock clock) {
    this.file = file;
    this.clock = clock;
  }

  /**
   * Opens the ledger of a folder, and makes both when they do not exist.
   *
   * @param folder the ledger's folder
   * @param clock tells when content was changed
   * @return the open ledger
   * @throws LedgerException when the folder can not be used or its file is no ledger
   */
  public static Ledger open(Path folder, Clock clock) {
    return new Ledger(LedgerFile.open(folder), clock);
  }

  /**
   * Whether a folder has a ledger.
   *
   * @param folder any folder, which need not exist
   * @return true when {@link #open} would find one and not make one
   */
  public static boolean existsIn(Path folder) {
    return LedgerFile.in(folder).exists();
  }

  /**
   * The ledger's file.
   *
   * @return an absolute path
   */
  public Path file() {
    return file.path();
  }

  /**
   * Reads from one snapshot. Inside a write that is the state before it: use its session instead.
   *
   * @param work what to read; changes are refused
   * @param <T> what comes out of it
   * @return what came out of it
   * @throws LedgerException when the ledger can not be read
   */
  public <T> T read(LedgerWork<T> work) {
    requireOpen();
    LedgerSession session = idle.pollFirst();
    if (session == null) {
      session = new LedgerSession(file.connectForReading());
      connections.incrementAndGet();
    }
    boolean healthy = false;
    try {
      session.beginReading();
      try {
        return work.in(session);
      } finally {
        session.endReading();
        healthy = true;
      }
    } finally {
      if (healthy && idle.size() < IDLE_READERS) {
        idle.addFirst(session);
        if (closed) {
          closeIdle();
        }
      } else {
        close(session);
      }
    }
  }

  /**
   * Changes the ledger in one transaction: all of it or, when the work throws, nothing.
   *
   * @param work what to change
   * @param <T> what comes out of it
   * @return what came out of it
   * @throws LedgerException when a rule of the ledger is broken, or another program writes for
   *     longer than five seconds
   */
  public <T> T write(LedgerWork<T> work) {
    return inTransaction(work, true);
  }

  /**
   * Finds out what a change would do: does the work in a transaction and takes all of it back.
   *
   * @param work what to try
   * @param <T> what comes out of it
   * @return what came out of it
   * @throws LedgerException as {@link #write} throws it
   */
  public <T> T attempt(LedgerWork<T> work) {
    return inTransaction(work, false);
  }

  private <T> T inTransaction(LedgerWork<T> work, boolean keep) {
    if (writing.isHeldByCurrentThread()) {
      throw new IllegalStateException("a write inside a write: use the session that is at hand");
    }
    writing.lock();
    try {
      requireOpen();
      if (writer == null) {
        writer = new LedgerSession(file.connectForWriting());
        connections.incrementAndGet();
      }
      LedgerSession session = writer;
      session.beginWriting();
      boolean committed = false;
      try {
        T result = work.in(session);
        if (keep) {
          session.commit(clock.instant());
          committed = true;
        }
        return result;
      } finally {
        if (!committed) {
          rollback(session);
        }
      }
    } finally {
      writing.unlock();
    }
  }

  /**
   * Changes the ledger in one transaction, as {@link #write} does, when nothing comes out of it.
   *
   * @param work what to change
   * @throws LedgerException when a rule of the ledger is broken, or another program writes for
   *     longer than five seconds
   */
  public void change(Consumer<LedgerSession> work) {
    write(
        session -> {
          work.accept(session);
          return true;
        });
  }

  /** A connection that can not even roll back is given up, which rolls back as well. */
  private void rollback(LedgerSession session) {
    try {
      session.rollback();
    } catch (LedgerException e) {
      writer = null;
      close(session);
    }
  }

  /**
   * A number that grows with every change of spots, facings and shots, by whichever program, and
   * stays the same otherwise. What was read at a number is still true while the number is.
   *
   * @return the number
   */
  public long stockVersion() {
    return read(LedgerSession::stockVersion);
  }

  /**
   * Copies the ledger as it is at this moment into one file, while others read and write on.
   *
   * @param target the new file; a name that ends in .gpkg keeps it a GeoPackage
   * @throws LedgerException when there is a file already, or it can not be written
   */
  public void backup(Path target) {
    requireOpen();
    new Backup(file).to(target);
  }

  /**
   * Puts a backup in the place of a folder's ledger, or makes that folder's ledger from it. A kill
   * at any moment leaves the ledger that was there or the one of the backup.
   *
   * @param backup a file that {@link #backup} made, of this version or an older one
   * @param folder the ledger's folder
   * @param replace whether a ledger that is there may be moved aside, under a new name beside it
   * @param clock tells the name of the ledger that is moved aside
   * @return where the ledger that was there is now, or nothing when there was none
   * @throws LedgerException when the backup is damaged, newer or no ledger, when there is a ledger
   *     that may not be replaced or that a program has open, or when the disk is full
   */
  public static Optional<Path> restore(Path backup, Path folder, boolean replace, Clock clock) {
    return new Restore(folder, Restore.Watcher.NONE).from(backup, replace, clock.instant());
  }

  /**
   * Fills the spatial indexes anew from the positions of spots and shots. Only needed when {@link
   * LedgerCheck} says so, for example after a program changed positions without the triggers.
   */
  public void rebuildSpatialIndexes() {
    change(LedgerSession::rebuildSpatialIndexes);
  }

  /**
   * Writes the whole ledger anew, so that nothing of what was deleted stays in its file or in its
   * write-ahead log. It takes as long as copying the file, and as much room again meanwhile.
   *
   * @throws LedgerException when another program keeps the ledger busy
   */
  public void scrub() {
    writing.lock();
    try {
      requireOpen();
      LedgerSession session = writer;
      writer = null;
      if (session != null) {
        close(session);
      }
      closeIdle();
      file.scrub();
    } finally {
      writing.unlock();
    }
  }

  /** Waits for a write under way, then closes. Reads under way end undisturbed. */
  @Override
  public void close() {
    if (writing.isHeldByCurrentThread()) {
      throw new IllegalStateException("a write can not close its own ledger; let it end first");
    }
    writing.lock();
    try {
      closed = true;
      LedgerSession session = writer;
      writer = null;
      if (session != null) {
        close(session);
      }
      closeIdle();
    } finally {
      writing.unlock();
    }
  }

  /** How many connections are open, in use or idle. */
  int connections() {
    return connections.get();
  }

  private void closeIdle() {
    for (LedgerSession session = idle.pollFirst(); session != null; session = idle.pollFirst()) {
      close(session);
    }
  }

  private void close(LedgerSession session) {
    connections.decrementAndGet();
    session.close();
  }

  private void requireOpen() {
    if (closed) {
      throw new IllegalStateException("the ledger is closed; open it again");
    }
  }
}

package org.lightledger.surroundings;

import java.time.Duration;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerException;
import org.lightledger.store.LedgerSession;

/**
 * Keeps the skylines of an open ledger current in the background, whoever changes it: it looks
 * every few seconds whether the ledger has changed since it last found nothing to do.
 */
public final class SkylineKeeper implements AutoCloseable {
  private static final Duration LOOK_EVERY = Duration.ofSeconds(3);

  private final Ledger ledger;
  private final SkylineWork work;
  private final ScheduledExecutorService thread =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread made = new Thread(task, "skylines");
            made.setDaemon(true);
            return made;
          });
  private volatile boolean closing;
  private volatile @Nullable String problem;
  private long versionWhenDone = -1;

  /**
   * Keeps a ledger's skylines.
   *
   * @param ledger an open ledger, closed after this
   * @param work makes its skylines
   */
  public SkylineKeeper(Ledger ledger, SkylineWork work) {
    this.ledger = ledger;
    this.work = work;
  }

  /**
   * Starts.
   *
   * @return this
   */
  public SkylineKeeper start() {
    thread.scheduleWithFixedDelay(this::look, 0, LOOK_EVERY.toMillis(), TimeUnit.MILLISECONDS);
    return this;
  }

  private void look() {
    try {
      long version = ledger.read(SkylineKeeper::version);
      if (version == versionWhenDone) {
        return;
      }
      boolean nothingLeft = work.makeDue(count -> {}, () -> closing) == 0;
      problem = null;
      if (nothingLeft) {
        versionWhenDone = version;
      }
    } catch (UnreadableElevationException | LedgerException e) {
      problem = e.getMessage();
    } catch (RuntimeException | Error e) {
      // What is thrown on would end the schedule without a word.
      problem =
          "The skylines of some spots can not be worked out ("
              + e
              + "); look at what was added last.";
    }
  }

  private static long version(LedgerSession session) {
    return session.stockVersion() + session.skylines().sourcesVersion();
  }

  /**
   * Waits until everything that was changed before has been taken in, but not for long: the rest is
   * made in the background.
   *
   * @param longest how long to wait at most
   * @return true when nothing is left to make
   */
  public boolean settle(Duration longest) {
    Future<?> looked = thread.submit(this::look);
    try {
      looked.get(longest.toMillis(), TimeUnit.MILLISECONDS);
      return true;
    } catch (TimeoutException e) {
      return false;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    } catch (ExecutionException e) {
      throw new IllegalStateException("the skylines can not be made", e.getCause());
    }
  }

  /**
   * What keeps skylines from being made.
   *
   * @return which elevation can not be read and what to do, or null
   */
  public @Nullable String problem() {
    return problem;
  }

  @Override
  public void close() {
    closing = true;
    thread.shutdown();
    try {
      thread.awaitTermination(30, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}

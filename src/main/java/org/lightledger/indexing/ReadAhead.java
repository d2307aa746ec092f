package org.lightledger.indexing;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Future;
import java.util.concurrent.FutureTask;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/**
 * Does work ahead with several threads and hands the results out in the order in which the work
 * came. With one thread there are none beside the caller's, which works when it asks.
 */
final class ReadAhead<T> {
  /** Results that wait for their turn; bounds the memory. */
  private static final int MOST_AHEAD = 64;

  private final Deque<Future<T>> ahead = new ArrayDeque<>();
  private final int room;
  private final ThreadPoolExecutor workers;
  private final boolean alone;

  ReadAhead(int threads) {
    alone = threads == 1;
    room = alone ? 1 : MOST_AHEAD;
    // Threads come with the first work, so that none come when the caller works alone.
    workers =
        new ThreadPoolExecutor(threads, threads, 0, TimeUnit.SECONDS, new LinkedBlockingQueue<>());
  }

  boolean isEmpty() {
    return ahead.isEmpty();
  }

  boolean hasRoom() {
    return ahead.size() < room;
  }

  void add(Callable<T> work) {
    if (alone) {
      FutureTask<T> task = new FutureTask<>(work);
      task.run();
      ahead.add(task);
    } else {
      ahead.add(workers.submit(work));
    }
  }

  /** Waits for the oldest result. */
  T next() {
    try {
      return ahead.remove().get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("the import was interrupted; start it again to go on", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException("reading a file failed unexpectedly", e.getCause());
    }
  }

  void stop() {
    workers.shutdownNow();
  }
}

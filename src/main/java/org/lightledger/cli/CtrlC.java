package org.lightledger.cli;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/**
 * Lets work come to an orderly end when the process is asked to end: the program waits until the
 * work has seen the request and this is closed.
 */
final class CtrlC implements AutoCloseable {
  /** Own choice, seconds: a batch takes a few at most. */
  private static final long LONGEST_WAIT_S = 60;

  private final CountDownLatch ended = new CountDownLatch(1);
  private final Thread hook = new Thread(this::ask, "ctrl-c");
  private volatile boolean asked;

  CtrlC() {
    Runtime.getRuntime().addShutdownHook(hook);
  }

  private void ask() {
    asked = true;
    try {
      if (!ended.await(LONGEST_WAIT_S, TimeUnit.SECONDS)) {
        System.err.println("The work did not end in time; what was kept is safe.");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Whether the process was asked to end. */
  boolean asked() {
    return asked;
  }

  @Override
  public void close() {
    ended.countDown();
    if (!asked) {
      try {
        Runtime.getRuntime().removeShutdownHook(hook);
      } catch (IllegalStateException e) {
        asked = true;
      }
    }
  }
}

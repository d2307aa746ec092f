package org.lightledger.access;

import java.time.Duration;
import java.time.Instant;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.Set;

/**
 * Slows down who guesses passwords: after a few wrong ones each further try has to wait longer, per
 * address and, more patiently, over all addresses together (NIST SP 800-63B-4, section 3.2.2, names
 * waits that grow with each failure). A try counts as wrong until it is known to be right, so that
 * many at the same time gain nothing. An address from which the right password came before is held
 * for its own failures only: guessers elsewhere can not lock its owner out. Memory is constant.
 * Safe for use by several threads.
 */
public final class AttemptLimit {
  /** So many wrong passwords from one address cost nothing but the typing. Own choice. */
  public static final int FREE_TRIES = 5;

  /** So many from all addresses together. Own choice. */
  public static final int FREE_TRIES_OVERALL = 30;

  /** The longest wait of one address; NIST names up to an hour. Own choice. */
  public static final Duration LONGEST_WAIT = Duration.ofMinutes(15);

  /** The longest wait that addresses cause each other. Own choice. */
  public static final Duration LONGEST_WAIT_OVERALL = Duration.ofMinutes(1);

  /** Failures are forgotten when none was added for so long. Own choice. */
  public static final Duration FORGOTTEN_AFTER = Duration.ofHours(1);

  private static final int MOST_KNOWN = 64;
  private static final int OVERALL = AddressTable.CELLS;

  private final AddressTable table = new AddressTable();
  private final int[] failures = new int[AddressTable.CELLS + 1];
  private final long[] lastMs = new long[AddressTable.CELLS + 1];
  private final Set<String> known = new LinkedHashSet<>();

  /**
   * Asks for a try.
   *
   * @param address where it comes from
   * @param now the present time
   * @return zero when the password may be looked at, and the try is counted; else how long to wait,
   *     and nothing is counted
   */
  public synchronized Duration begin(String address, Instant now) {
    int cell = table.cell(address);
    long nowMs = now.toEpochMilli();
    long waitMs = waitMs(cell, FREE_TRIES, LONGEST_WAIT, nowMs);
    if (!known.contains(address)) {
      waitMs = Math.max(waitMs, waitMs(OVERALL, FREE_TRIES_OVERALL, LONGEST_WAIT_OVERALL, nowMs));
    }
    if (waitMs > 0) {
      return Duration.ofMillis(waitMs);
    }
    count(cell, nowMs);
    count(OVERALL, nowMs);
    return Duration.ZERO;
  }

  /**
   * Says that the try was right: the address starts afresh.
   *
   * @param address where it came from
   */
  public synchronized void succeeded(String address) {
    failures[table.cell(address)] = 0;
    failures[OVERALL] = Math.max(0, failures[OVERALL] - 1);
    known.remove(address);
    known.add(address);
    Iterator<String> oldest = known.iterator();
    while (known.size() > MOST_KNOWN) {
      oldest.next();
      oldest.remove();
    }
  }

  /**
   * Says that the password was not looked at after all.
   *
   * @param address where the try came from
   */
  public synchronized void withdrawn(String address) {
    int cell = table.cell(address);
    failures[cell] = Math.max(0, failures[cell] - 1);
    failures[OVERALL] = Math.max(0, failures[OVERALL] - 1);
  }

  private long waitMs(int cell, int free, Duration longest, long nowMs) {
    long sinceMs = Math.max(0, nowMs - lastMs[cell]);
    if (sinceMs >= FORGOTTEN_AFTER.toMillis()) {
      failures[cell] = 0;
    }
    int surplus = failures[cell] - free;
    if (surplus < 0) {
      return 0;
    }
    long delayMs = Math.min(longest.toMillis(), 2000L << Math.min(surplus, 20));
    return Math.max(0, delayMs - sinceMs);
  }

  private void count(int cell, long nowMs) {
    failures[cell] = Math.min(failures[cell] + 1, 1_000_000);
    lastMs[cell] = nowMs;
  }
}

package org.lightledger.access;

import java.time.Duration;
import java.time.Instant;

/**
 * Allows each address a number of things at once, and then one for each span of time. Memory is
 * constant. Safe for use by several threads.
 */
public final class RateLimit {
  private final AddressTable table = new AddressTable();
  private final int atOnce;
  private final long spanMs;

  /** Until when the things that were taken are paid off; in the past when all are to be had. */
  private final long[] paidMs = new long[AddressTable.CELLS];

  /**
   * A limit.
   *
   * @param atOnce how many things may be taken at once, 1 or more
   * @param span the time in which one more can be taken, a millisecond or more
   */
  public RateLimit(int atOnce, Duration span) {
    if (atOnce < 1 || span.toMillis() < 1) {
      throw new IllegalArgumentException(
          "expected 1 or more at once and a span of a millisecond or more, found "
              + atOnce
              + " and "
              + span);
    }
    this.atOnce = atOnce;
    this.spanMs = span.toMillis();
  }

  /**
   * How long an address has to wait until there is something for it.
   *
   * @param address the address
   * @param now the present time
   * @return zero when there is something now
   */
  public synchronized Duration waiting(String address, Instant now) {
    return Duration.ofMillis(waitMs(table.cell(address), now.toEpochMilli()));
  }

  /**
   * Takes one thing.
   *
   * @param address the address
   * @param now the present time
   * @return zero when it was there; else how long to wait, and nothing is taken
   */
  public synchronized Duration take(String address, Instant now) {
    int cell = table.cell(address);
    long nowMs = now.toEpochMilli();
    long waitMs = waitMs(cell, nowMs);
    if (waitMs == 0) {
      paidMs[cell] = Math.max(paidMs[cell], nowMs) + spanMs;
    }
    return Duration.ofMillis(waitMs);
  }

  private long waitMs(int cell, long nowMs) {
    paidMs[cell] = Math.min(paidMs[cell], nowMs + atOnce * spanMs);
    return Math.max(0, paidMs[cell] + spanMs - nowMs - atOnce * spanMs);
  }
}

package org.lightledger.session;

import java.time.LocalTime;

/**
 * When a place lets people in, on the place's clock, every day alike.
 *
 * @param opens from when
 * @param closes until when, later on the same day
 */
public record OpenHours(LocalTime opens, LocalTime closes) {
  /** Checks the order. */
  public OpenHours {
    if (!opens.isBefore(closes)) {
      throw new IllegalArgumentException(
          "expected an opening time before the closing time, found "
              + opens
              + " and "
              + closes
              + "; a place that stays open past midnight closes at 23:59");
    }
  }
}

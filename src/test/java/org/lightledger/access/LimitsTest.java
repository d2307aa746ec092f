package org.lightledger.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class LimitsTest {
  private static final Instant START = Instant.parse("2026-11-25T10:00:00Z");

  private final AttemptLimit attempts = new AttemptLimit();

  @Test
  void eachWrongPasswordDoublesTheWaitUpToItsLongest() {
    List<Long> waits = new ArrayList<>();
    Instant now = START;
    for (int free = 1; free < AttemptLimit.FREE_TRIES; free++) {
      assertThat(attempts.begin("a", now)).isZero();
    }
    for (int tries = 0; tries < 11; tries++) {
      assertThat(attempts.begin("a", now)).isZero();
      long wait = attempts.begin("a", now).toSeconds();
      waits.add(wait);
      assertThat(attempts.begin("a", now.plusSeconds(wait).minusMillis(1))).isPositive();
      now = now.plusSeconds(wait);
    }

    assertThat(waits).containsExactly(2L, 4L, 8L, 16L, 32L, 64L, 128L, 256L, 512L, 900L, 900L);
  }

  @Test
  void triesAtTheSameTimeGainNothing() {
    int allowed = 0;
    for (int i = 0; i < 1000; i++) {
      allowed += attempts.begin("a", START).isZero() ? 1 : 0;
    }

    assertThat(allowed).isEqualTo(AttemptLimit.FREE_TRIES);
  }

  @Test
  void manyAddressesTogetherAreSlowedAndTheOwnersOwnIsNot() {
    assertThat(attempts.begin("owner", START)).isZero();
    attempts.succeeded("owner");
    int allowed = 0;
    for (int i = 0; i < 20_000; i++) {
      allowed += attempts.begin("guesser " + i, START.plusSeconds(i)).isZero() ? 1 : 0;
    }

    assertThat(allowed).isBetween(300, 400);
    assertThat(attempts.begin("somebody new", START.plusSeconds(20_000))).isPositive();
    assertThat(attempts.begin("owner", START.plusSeconds(20_000)))
        .isLessThanOrEqualTo(Duration.ofSeconds(2));
  }

  @Test
  void aMillionAddressesTakeNoMoreMemoryThanOne() {
    RateLimit rate = new RateLimit(3, Duration.ofSeconds(10));
    long before = usedBytes();
    for (int i = 0; i < 1_000_000; i++) {
      attempts.begin("guesser " + i, START.plusMillis(i));
      rate.take("guesser " + i, START.plusMillis(i));
    }

    assertThat(usedBytes() - before).isLessThan(4_000_000);
    assertThat(attempts.begin("guesser 1", START.plusMillis(1_000_000))).isPositive();
  }

  private static long usedBytes() {
    System.gc();
    return Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
  }

  @Test
  void successAndAnHourOfRestStartAfresh() {
    for (int i = 0; i < 5; i++) {
      attempts.begin("a", START);
    }
    assertThat(attempts.begin("a", START)).isPositive();
    attempts.succeeded("a");
    assertThat(attempts.begin("a", START)).isZero();
    for (int i = 0; i < 5; i++) {
      attempts.begin("b", START);
    }
    assertThat(attempts.begin("b", START)).isPositive();
    Instant later = START.plus(AttemptLimit.FORGOTTEN_AFTER);
    for (int i = 0; i < 5; i++) {
      assertThat(attempts.begin("b", later)).isZero();
    }
  }

  @Test
  void aRateAllowsSomeAtOnceAndThenOneForEachSpan() {
    RateLimit rate = new RateLimit(3, Duration.ofSeconds(10));
    for (int i = 0; i < 3; i++) {
      assertThat(rate.take("a", START)).isZero();
    }

    assertThat(rate.take("a", START)).isEqualTo(Duration.ofSeconds(10));
    assertThat(rate.waiting("a", START.plusSeconds(4))).isEqualTo(Duration.ofSeconds(6));
    assertThat(rate.take("a", START.plusSeconds(10))).isZero();
    assertThat(rate.take("a", START.plusSeconds(10))).isPositive();
    for (int i = 0; i < 3; i++) {
      assertThat(rate.take("a", START.plusSeconds(1000))).isZero();
    }
    assertThat(rate.take("a", START.plusSeconds(1000))).isPositive();
  }

  @Test
  void aClockThatIsPutBackLocksNobodyOutForLong() {
    RateLimit rate = new RateLimit(2, Duration.ofSeconds(10));
    for (int i = 0; i < 3; i++) {
      rate.take("a", START);
      attempts.begin("a", START);
    }

    assertThat(rate.take("a", START.minus(Duration.ofDays(3)))).isEqualTo(Duration.ofSeconds(10));
    assertThat(attempts.begin("a", START.minus(Duration.ofDays(3)))).isZero();
  }

  @Test
  void aRateWithoutASenseIsRefused() {
    assertThatIllegalArgumentException().isThrownBy(() -> new RateLimit(0, Duration.ofSeconds(1)));
    assertThatIllegalArgumentException().isThrownBy(() -> new RateLimit(1, Duration.ZERO));
  }
}

package org.lightledger.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class SessionsTest {
  private static final Instant START = Instant.parse("2026-11-25T10:00:00Z");

  private final Sessions sessions = new Sessions();

  @Test
  void aSessionEndsWhenItIsLeftAlone() {
    String token = sessions.begin("hash", START);
    Instant almost = START.plus(Sessions.LONGEST_IDLE).minusMillis(1);

    assertThat(sessions.use(token, "hash", almost)).isTrue();
    assertThat(sessions.use(token, "hash", almost.plus(Sessions.LONGEST_IDLE))).isFalse();
    assertThat(sessions.use(token, "hash", almost)).isFalse();
  }

  @Test
  void aSessionEndsHoweverMuchItIsUsed() {
    String token = sessions.begin("hash", START);
    Instant end = START.plus(Sessions.LONGEST);
    for (Instant now = START; now.isBefore(end); now = now.plus(Duration.ofHours(6))) {
      assertThat(sessions.use(token, "hash", now)).isTrue();
    }

    assertThat(sessions.use(token, "hash", end)).isFalse();
  }

  @Test
  void anotherPasswordAndALogoutEndIt() {
    String first = sessions.begin("hash", START);
    String second = sessions.begin("hash", START);
    sessions.end(first);

    assertThat(sessions.use(first, "hash", START)).isFalse();
    assertThat(sessions.use(second, "hash", START)).isTrue();
    assertThat(sessions.use(second, "another", START)).isFalse();
    assertThat(sessions.use(second, "hash", START)).isFalse();
  }

  @Test
  void tokensAreLongAndNeverRepeatAndMemoryIsBounded() {
    Set<String> tokens = new HashSet<>();
    for (int i = 0; i < 10_000; i++) {
      tokens.add(sessions.begin("hash", START.plusMillis(i)));
    }

    assertThat(tokens).hasSize(10_000).allMatch(token -> token.matches("[A-Za-z0-9_-]{43}"));
    assertThat(sessions.count()).isEqualTo(64);
  }
}

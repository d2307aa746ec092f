package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import java.util.function.IntFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.access.AttemptLimit;

/** A thousand wrong passwords from one address, and a thousand more from as many. */
class LoginAttackTest {
  /**
   * From the tests of Argon2's reference implementation: "password" at a small cost, so that the
   * tries that are looked at take no time.
   */
  private static final String CHEAP =
      "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4";

  @TempDir Path folder;

  private LockedSite cheap() {
    LockedSite locked = new LockedSite(folder);
    locked.site().ledger().change(session -> session.settings().set("owner.password", CHEAP));
    return locked;
  }

  private static Map<Integer, Integer> guess(
      RawClient client, int tries, IntFunction<String> from) {
    Map<Integer, Integer> statuses = new HashMap<>();
    for (int i = 0; i < tries; i++) {
      RawClient.Answer answer =
          LockedSite.tryPassword(
              client, "a guess of some length " + i, "X-Forwarded-For: " + from.apply(i));
      statuses.merge(answer.status(), 1, Integer::sum);
      assertThat(answer.header("Set-Cookie")).isEmpty();
      if (answer.status() == 429) {
        assertThat(Integer.parseInt(answer.header("Retry-After").orElseThrow())).isPositive();
      }
    }
    return statuses;
  }

  @Test
  void guessersAreHeldAndNeverLetInAndTheOwnerGetsInAfterTheWait() {
    try (LockedSite locked = cheap()) {
      RawClient client = locked.client();
      String right = "password";
      assertThat(guess(client, 1000, i -> "203.0.113.7"))
          .containsOnly(
              Map.entry(403, AttemptLimit.FREE_TRIES),
              Map.entry(429, 1000 - AttemptLimit.FREE_TRIES));
      assertThat(LockedSite.tryPassword(client, right, "X-Forwarded-For: 203.0.113.7").status())
          .isEqualTo(429);
      assertThat(guess(client, 100, i -> "192.0.2." + i + ", 203.0.113.7")).containsOnlyKeys(429);

      assertThat(guess(client, 1000, i -> "10.1." + i / 250 + "." + i % 250))
          .containsEntry(403, AttemptLimit.FREE_TRIES_OVERALL - AttemptLimit.FREE_TRIES)
          .hasSize(2);
      assertThat(guess(client, 200, i -> "2001:db8::" + Integer.toHexString(i)))
          .containsOnlyKeys(429);
      assertThat(LockedSite.logIn(client, right)).as("from where it was right before").isNotEmpty();

      locked.site().clock().advance(AttemptLimit.LONGEST_WAIT_OVERALL.plus(Duration.ofSeconds(1)));
      RawClient.Answer after =
          LockedSite.tryPassword(client, right, "X-Forwarded-For: 203.0.113.7");
      assertThat(after.status()).isEqualTo(303);
      assertThat(LockedSite.cookieOf(after)).startsWith("__Host-lightledger=");
      assertThat(client.sent()).isGreaterThan(2300);
    }
  }

  @Test
  void whatIsNoPasswordAtAllIsWrongAndNothingWorse() {
    try (LockedSite locked = cheap()) {
      RawClient client = locked.client();
      int at = 0;
      for (String body :
          new String[] {
            "",
            "password",
            "password=",
            "password=%00",
            "password=%ff%fe",
            "password=%",
            "password=" + "x".repeat(900_000),
            "password=a&password=password",
            "password[]=x",
            "{\"password\":true}",
            "password=' OR '1'='1",
            "password=$argon2id$v=19$m=65536,t=3,p=4$"
          }) {
        RawClient.Answer answer =
            client.post(
                "/login",
                body,
                "Host: " + LockedSite.HOST,
                "Origin: " + LockedSite.ORIGIN,
                "X-Forwarded-For: 198.51.100." + at++);
        assertThat(answer.status())
            .as(body.substring(0, Math.min(40, body.length())))
            .isIn(400, 403);
        assertThat(answer.header("Set-Cookie")).isEmpty();
      }
      for (int i = 0; i < 2000; i++) {
        String cookie = "__Host-lightledger=" + (i % 2 == 0 ? "x".repeat(i) : "AAAA" + i);
        RawClient.Answer answer =
            client.get("/spots", "Host: " + LockedSite.HOST, "Cookie: " + cookie);
        assertThat(answer.status()).isEqualTo(303);
      }
    }
  }
}

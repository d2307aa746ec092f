package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;

/**
 * Links that were never given out, that are over, or that were taken back; and what lies beyond.
 */
class ShareAttackTest {
  /**
   * Of 1500 addresses in 4096 cells one shares the exhausted one's cell in three runs of ten; more
   * than eight do in fewer than one of a hundred million (a Poisson count of mean 0.37).
   */
  private static final int IN_THE_SAME_CELL = 8;

  private static final String LETTERS =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

  @TempDir Path folder;
  private LockedSite locked;
  private RawClient clients;
  private final Random random = new Random(20261125);

  @BeforeEach
  void open() {
    locked = new LockedSite(folder);
    clients = new RawClient(locked.site().sharePort());
  }

  @AfterEach
  void close() {
    locked.close();
  }

  private Share share() {
    return locked
        .site()
        .ledger()
        .read(session -> session.shares().of(ShareSubject.shortlist(1)))
        .get(0);
  }

  /** Random ones, and a true one with one letter changed, cut off, added, or in another case. */
  private String forged(String token, int number) {
    char other = LETTERS.charAt(random.nextInt(LETTERS.length()));
    int at = 1 + random.nextInt(token.length() - 1);
    return switch (number % 5) {
      case 0 ->
          token.substring(0, at)
              + (other == token.charAt(at) ? '.' : other)
              + token.substring(at + 1);
      case 1 -> token.substring(0, at);
      case 2 -> token + other;
      case 3 -> "' OR token LIKE '%25" + other;
      default -> {
        StringBuilder made = new StringBuilder();
        for (int i = 0; i < token.length(); i++) {
          made.append(LETTERS.charAt(random.nextInt(LETTERS.length())));
        }
        yield made.toString();
      }
    };
  }

  private String target(String token, int number) {
    String target = "/s/" + forged(token, number).replace(" ", "%20").replace("'", "%27");
    return number % 2 == 0 ? target : target + "/picture/1";
  }

  /** One address first and alone, since another that shares its cell would spend its tries. */
  @Test
  void threeThousandForgedLinksOpenNothingAndAreSoonNotLookedAt() {
    String token = share().token();
    Map<Integer, Integer> held = new HashMap<>();
    Map<Integer, Integer> spread = new HashMap<>();
    RawClient owners = locked.client();
    for (int i = 0; i < 1500; i++) {
      RawClient.Answer one = clients.get(target(token, i));
      held.merge(one.status(), 1, Integer::sum);
      assertThat(one.body()).doesNotContain("Autumn");
    }
    for (int i = 0; i < 1500; i++) {
      String from = "X-Forwarded-For: 10." + i % 200 + "." + i / 200 + ".7";
      RawClient.Answer one = (i % 3 == 0 ? owners : clients).get(target(token, i), from);
      spread.merge(one.status(), 1, Integer::sum);
      assertThat(one.body()).doesNotContain("Autumn");
    }

    assertThat(held).containsOnlyKeys(404, 429).containsEntry(404, Limits.WRONG_LINKS);
    assertThat(held.values().stream().mapToInt(n -> n).sum()).isEqualTo(1500);
    assertThat(spread.get(404)).isGreaterThanOrEqualTo(1500 - IN_THE_SAME_CELL);
    assertThat(spread.get(404) + spread.getOrDefault(429, 0)).isEqualTo(1500);
    RawClient.Answer refused = clients.get("/s/" + token);
    assertThat(refused.status()).isEqualTo(429);
    assertThat(Integer.parseInt(refused.header("Retry-After").orElseThrow())).isBetween(1, 2);
    assertThat(List.of("198.51.100.9", "198.51.100.10", "198.51.100.11"))
        .as("networks that sent no wrong link; one may share the exhausted cell")
        .filteredOn(from -> clients.get("/s/" + token, "X-Forwarded-For: " + from).status() == 200)
        .hasSizeGreaterThanOrEqualTo(2);
    locked.site().clock().advance(Duration.ofSeconds(2));
    assertThat(clients.get("/s/" + token).status()).isEqualTo(200);
  }

  @Test
  void linksThatAreOverShowNothingAnyMore() {
    String expired = share().token();
    locked.site().clock().advance(Duration.ofDays(61));
    String cookie = LockedSite.logIn(locked.client(), LockedSite.PASSWORD);
    String[] owner = {
      "Host: " + LockedSite.HOST, "Origin: " + LockedSite.ORIGIN, "Cookie: " + cookie
    };
    locked.client().post("/shortlists/1/shares", "days=60", owner);
    Share fresh = share();
    assertThat(clients.get("/s/" + fresh.token() + "/picture/1").status()).isEqualTo(200);
    locked.client().post("/shortlists/1/shares/" + fresh.id() + "/revoke", "", owner);

    int sent = 0;
    for (String token : List.of(expired, fresh.token())) {
      for (int i = 0; i < 500; i++, sent++) {
        RawClient.Answer page = clients.get("/s/" + token + "?again=" + i);
        assertThat(page.status()).isEqualTo(410);
        assertThat(page.body()).doesNotContain("Autumn", "picture/1");
      }
      assertThat(clients.get("/s/" + token + "/picture/1").status()).isEqualTo(410);
    }
    assertThat(sent).isEqualTo(1000);
  }

  @Test
  void theClientsListenerHasNoRouteOfTheOwners() {
    int sent = 0;
    List<Routes.Route> all = Routes.of(locked.site().server().ownerPages());
    List<Routes.Route> theirs = Routes.of(locked.site().server().clientPages());
    assertThat(theirs).allMatch(route -> ShareRoutes.isClients(route.path())).hasSize(9);
    for (Routes.Route route : all) {
      if (ShareRoutes.isClients(route.path())) {
        continue;
      }
      for (String method :
          new String[] {"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"}) {
        for (String before :
            new String[] {"", "/s/..", "/s/%2e%2e", "//", "/s/x/picture/../../.."}) {
          RawClient.Answer answer =
              clients.send(
                  method, before + route.with("1"), locked.owner().toArray(String[]::new), "");
          assertThat(answer.status()).as("%s %s%s", method, before, route).isIn(400, 404, 405, 429);
          assertThat(answer.body()).doesNotContain("href=\"/spots\"", "rooms");
          sent++;
        }
      }
    }
    assertThat(sent).isGreaterThan(2000);
  }
}

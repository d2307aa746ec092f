package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Addresses that try to leave their place: to files, to other routes, around the login. */
class PathAttackTest {
  private static final List<String> PARTS =
      List.of(
          "..",
          "../../../../etc/passwd",
          "..%2f..%2f..%2f..%2fetc%2fpasswd",
          "%2e%2e%2f%2e%2e%2f%2e%2e%2fetc%2fpasswd",
          "%252e%252e%252f%252e%252e%252fetc%252fpasswd",
          "..%5c..%5c..%5cwindows%5cwin.ini",
          "..\\..\\..\\windows\\win.ini",
          "....//....//etc/passwd",
          "..;/..;/etc/passwd",
          "%c0%ae%c0%ae%c0%afetc%c0%afpasswd",
          "%e0%80%ae%e0%80%ae/etc/passwd",
          "%u002e%u002e%u2215etc",
          "%2fetc%2fpasswd",
          "file:%2f%2f%2fetc%2fpasswd",
          "1%00",
          "1%00.jpg",
          "%00",
          "ledger.gpkg",
          "..%2fledger.gpkg",
          "1%0d%0aX-Planted:%201",
          "1;jsessionid=1",
          "1%3b",
          "%ff",
          "%",
          "%zz",
          "-1",
          "0",
          "1e3",
          "NaN",
          "0x1",
          "99999999999999999999999",
          "-9223372036854775808",
          "9223372036854775807",
          "%D9%A1",
          "{id}",
          "%7bid%7d",
          "1'--",
          "a".repeat(3000));

  /** What leads back to a route for a program that reads the address in another way. */
  private static final List<String> DETOURS =
      List.of(
          "/s/..%s",
          "/s/x/..;%s",
          "/s/..;%s",
          "/s/%%2e%%2e%s",
          "/s/%%2E%%2E%s",
          "/s/..%%2f..%s",
          "/s/x/picture/1/../../../..%s",
          "/login/..%s",
          "/login;%s",
          "/login/..;%s",
          "/login%%2f..%s",
          "/static/x/..%%2f..%s",
          "/static/../%s",
          "/static/x/..%s",
          "/.%s",
          "/%s",
          "//%s",
          "%s/",
          "%s//",
          "%s/.",
          "%s;",
          "%s;/login",
          "%s%%2f",
          "%s%%00",
          "%s%%20",
          "%s?/login",
          "%s#/login",
          "http://localhost%s",
          "http://light.example.org%s",
          "https://light.example.org/login/..%s");

  @TempDir static Path folder;
  private static LockedSite locked;

  @BeforeAll
  static void open() {
    locked = new LockedSite(folder);
  }

  @AfterAll
  static void close() {
    locked.close();
  }

  private static void assertHarmless(String what, RawClient.Answer answer) {
    assertThat(answer.status()).as(what).isBetween(200, 499);
    assertThat(answer.whole())
        .as(what)
        .doesNotContain("root:x:0", "SQLite format", "X-Planted", "Exception", "at org.", "\tat ")
        .doesNotContain(folder.toString());
    assertThat(answer.header("X-Planted")).as(what).isEmpty();
  }

  @Test
  void noParameterOfAnyRouteLeadsToAFile() {
    RawClient client = locked.client();
    for (Routes.Route route : Routes.of(locked.site().server().ownerPages())) {
      if (!route.takesParameters()) {
        continue;
      }
      for (String part : PARTS) {
        assertHarmless(
            route + " with " + part,
            client.send(
                route.method().name(),
                route.with(part),
                locked.owner().toArray(String[]::new),
                ""));
      }
    }
    for (String part : PARTS) {
      for (String query : new String[] {"?w=", "?day=", "?list=", "?to=", "?v=", "?exact="}) {
        assertHarmless(query + part, locked.get(client, "/shots/1/preview" + query + part));
      }
    }

    assertThat(client.sent()).isGreaterThan(1500);
    LedgerState.assertSound(locked.site().ledgerFolder());
  }

  @Test
  void noDetourLeadsAStrangerPastTheLogin() {
    RawClient client = locked.client();
    String[] hosts = {"Host: light.example.org", "Host: localhost"};
    for (Routes.Route route : Routes.reading(locked.site().server().ownerPages())) {
      if (ShareRoutes.isClients(route.path()) || route.path().startsWith("/static")) {
        continue;
      }
      for (String detour : DETOURS) {
        for (String method : new String[] {"GET", "HEAD"}) {
          String target = String.format(java.util.Locale.ROOT, detour, route.with("1"));
          RawClient.Answer answer =
              client.send(method, target, new String[] {hosts[client.sent() % 2]}, "");
          assertThat(answer.status()).as(method + " " + target).isBetween(200, 499);
          if (answer.status() < 300 && method.equals("GET")) {
            assertThat(answer.body()).as(target).contains("Password of this ledger");
          }
        }
      }
    }

    assertThat(client.sent()).isGreaterThan(1000);
  }

  @Test
  void noFolderIsListed() {
    RawClient client = locked.client();
    for (String target :
        new String[] {"/static", "/static/", "/static/x/", "/shots/", "/s", "/s/", "/map/"}) {
      assertThat(locked.get(client, target).status()).as(target).isEqualTo(404);
      assertThat(client.get(target).status()).as(target).isIn(303, 404);
    }
  }
}

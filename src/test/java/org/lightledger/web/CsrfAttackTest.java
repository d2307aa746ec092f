package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Changes that another site makes the owner's browser ask for, on every route that changes. */
class CsrfAttackTest {
  private static final String OWN = "Origin: " + LockedSite.ORIGIN;

  /**
   * What a browser would say of where it comes from; each is refused although the cookie is true.
   */
  private static final List<List<String>> FOREIGN =
      List.of(
          List.of(),
          List.of("Sec-Fetch-Site: none"),
          List.of("Sec-Fetch-Site: cross-site"),
          List.of("Sec-Fetch-Site: same-site"),
          List.of("Sec-Fetch-Site: cross-site", OWN),
          List.of("Sec-Fetch-Site: same-site", OWN),
          List.of("Sec-Fetch-Site: Same-Origin"),
          List.of("Sec-Fetch-Site:"),
          List.of("Origin: null"),
          List.of("Origin:"),
          List.of("Origin: https://evil.example"),
          List.of("Origin: https://evil.example", "Sec-Fetch-Site: same-origin"),
          List.of("Origin: http://" + LockedSite.HOST),
          List.of("Origin: https://" + LockedSite.HOST + ":8443"),
          List.of("Origin: https://" + LockedSite.HOST + ".evil.example"),
          List.of("Origin: https://evil.example/" + LockedSite.HOST),
          List.of("Origin: https://" + LockedSite.HOST + "@evil.example"),
          List.of("Origin: http://localhost"),
          List.of("Referer: " + LockedSite.ORIGIN + "/"),
          List.of("HX-Request: true"),
          List.of("X-Forwarded-Host: " + LockedSite.HOST, "Origin: https://evil.example"));

  private static final List<String> TYPES =
      List.of(
          "application/x-www-form-urlencoded",
          "multipart/form-data; boundary=x",
          "text/plain",
          "application/json");

  @TempDir Path folder;

  private static final List<Integer> REFUSED = List.of(403);

  /**
   * A client's change is let in by the secret in its link and by no cookie; here it is a wrong one.
   */
  private static final List<Integer> NO_SUCH_LINK = List.of(403, 404);

  private static boolean ofClients(Routes.Route route) {
    return ShareRoutes.isClients(route.path());
  }

  @Test
  void noChangeIsMadeForAnotherSiteNorForAStranger() {
    try (LockedSite locked = new LockedSite(folder)) {
      RawClient client = locked.client();
      List<Routes.Route> changing = Routes.changing(locked.site().server().ownerPages());
      assertThat(changing).hasSizeGreaterThan(35);
      Map<String, String> before = LedgerState.of(locked.site().ledgerFolder());
      for (Routes.Route route : changing) {
        for (List<String> foreign : FOREIGN) {
          String type = "Content-Type: " + TYPES.get(client.sent() % TYPES.size());
          String[] headers =
              java.util.stream.Stream.concat(
                      foreign.stream(),
                      java.util.stream.Stream.of(
                          "Host: " + LockedSite.HOST, "Cookie: " + locked.cookie(), type))
                  .toArray(String[]::new);
          assertThat(
                  client
                      .send(route.method().name(), route.with("1"), headers, "title=planted")
                      .status())
              .as("%s with %s", route, foreign)
              .isIn(ofClients(route) ? NO_SUCH_LINK : REFUSED);
        }
        for (String override : new String[] {"GET", "POST", "OPTIONS"}) {
          for (String method : new String[] {"GET", "POST", "HEAD"}) {
            if (!method.equals(override)) {
              String[] headers = {
                "Host: " + LockedSite.HOST,
                "Cookie: " + locked.cookie(),
                "X-HTTP-Method-Override: " + override
              };
              assertThat(client.send(method, route.with("1"), headers, "").status())
                  .as("%s %s as %s", method, route, override)
                  .isEqualTo(400);
            }
          }
        }
        if (!route.path().equals("/login") && !ofClients(route)) {
          String[] stranger = {"Host: " + LockedSite.HOST, OWN, "Sec-Fetch-Site: same-origin"};
          assertThat(client.post(route.with("1"), "title=planted", stranger).status())
              .as("%s by a stranger", route)
              .isEqualTo(401);
        }
      }

      assertThat(client.sent()).isGreaterThan(35 * 28);
      assertThat(LedgerState.of(locked.site().ledgerFolder())).isEqualTo(before);
      assertThat(locked.get(client, "/spots").status()).isEqualTo(200);
    }
  }
}

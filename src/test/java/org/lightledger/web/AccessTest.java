package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.access.OwnerPassword;
import org.lightledger.access.Sessions;

/** The owner's password: who gets in, how a session looks, and how it ends. */
class AccessTest {
  private static final String HOST = "Host: " + LockedSite.HOST;
  private static final String ORIGIN = "Origin: " + LockedSite.ORIGIN;

  /** From the tests of Argon2's reference implementation: "password" at a cost of long ago. */
  private static final String OLDER =
      "$argon2id$v=19$m=256,t=2,p=1$c29tZXNhbHQ$nf65EOgLrQMR/uIPnA4rEsF5h7TKyQwu9U1bMCHGi/4";

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

  @Test
  void theCookieIsSecretBoundToTheSiteAndToTls() {
    RawClient.Answer answer = LockedSite.tryPassword(locked.client(), LockedSite.PASSWORD);

    assertThat(answer.status()).isEqualTo(303);
    assertThat(answer.header("Location")).contains("/");
    assertThat(answer.header("Set-Cookie").orElseThrow())
        .matches(Pattern.compile("__Host-lightledger=[A-Za-z0-9_-]{43};.*"))
        .contains("Path=/", "; Secure", "; HttpOnly", "; SameSite=Strict")
        .doesNotContain("Domain", "Max-Age", "Expires");
    assertThat(answer.header("Strict-Transport-Security")).contains("max-age=31536000");
  }

  @Test
  void onLoopbackThePasswordHoldsTooAndTheCookieNeedsNoTls() {
    RawClient client = locked.client();
    String origin = "Origin: http://localhost:" + locked.site().port();
    RawClient.Answer answer =
        client.post("/login", "password=" + LockedSite.PASSWORD.replace(' ', '+'), origin);
    String cookie = LockedSite.cookieOf(answer);

    assertThat(client.get("/spots").status()).isEqualTo(303);
    assertThat(answer.header("Set-Cookie").orElseThrow())
        .startsWith("lightledger=")
        .doesNotContain("Secure");
    assertThat(answer.header("Strict-Transport-Security")).isEmpty();
    assertThat(client.get("/spots", "Cookie: " + cookie).status()).isEqualTo(200);
    assertThat(client.get("/spots", HOST, "Cookie: " + cookie).status()).isEqualTo(303);
  }

  @Test
  void aStrangerIsLedToTheLoginAndBackToWhereTheyWanted() {
    RawClient client = locked.client();
    RawClient.Answer page = client.get("/spots/1?day=2026-12-15", HOST);
    RawClient.Answer part = client.get("/spots", HOST, "HX-Request: true");
    RawClient.Answer json =
        client.get("/spots", HOST, "HX-Request: true", "Accept: application/json");

    assertThat(page.status()).isEqualTo(303);
    assertThat(page.header("Location").orElseThrow())
        .endsWith("/login?to=%2Fspots%2F1%3Fday%3D2026-12-15");
    assertThat(client.get("/login?to=%2Fspots%2F1%3Fday%3D2026-12-15", HOST).body())
        .contains(
            "name=\"to\" value=\"/spots/1?day=2026-12-15\"", "autocomplete=\"current-password\"");
    assertThat(part.status()).isEqualTo(401);
    assertThat(part.header("HX-Redirect")).contains("/login");
    assertThat(json.body()).contains("\"status\":401");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "https://evil.example/",
        "//evil.example/",
        "/\\evil.example",
        "\\\\evil.example",
        "javascript:alert(1)",
        "/%0d%0aSet-Cookie:x=1",
        "/\r\nX-Planted: 1",
        "spots"
      })
  void aLoginLeadsNowhereElse(String to) {
    String query = URLEncoder.encode(to, StandardCharsets.UTF_8);
    RawClient.Answer answer = locked.get(locked.client(), "/login?to=" + query);

    assertThat(answer.status()).isEqualTo(303);
    assertThat(answer.header("Location").orElseThrow())
        .matches("(https?://light\\.example\\.org(:\\d+)?)?/(%0d%0aSet-Cookie:x=1)?");
    assertThat(answer.header("X-Planted")).isEmpty();
  }

  @Test
  void logoutEndsTheSessionAndALoginEndsTheFormerOne() {
    RawClient client = locked.client();
    String first = LockedSite.logIn(client, LockedSite.PASSWORD);
    String second =
        LockedSite.cookieOf(
            LockedSite.tryPassword(client, LockedSite.PASSWORD, "Cookie: " + first));

    assertThat(client.get("/spots", HOST, "Cookie: " + first).status()).isEqualTo(303);
    assertThat(client.get("/spots", HOST, "Cookie: " + second).body()).contains("Log out");
    RawClient.Answer out = client.post("/logout", "", HOST, ORIGIN, "Cookie: " + second);
    assertThat(out.header("Set-Cookie").orElseThrow())
        .contains("__Host-lightledger=;", "Expires=Thu, 01 Jan 1970");
    assertThat(client.get("/spots", HOST, "Cookie: " + second).status()).isEqualTo(303);
  }

  @Test
  void anotherPasswordAndTimeLogEverybodyOutAndNoPasswordLetsNobodyIn(@TempDir Path other) {
    try (LockedSite site = new LockedSite(other)) {
      RawClient client = site.client();
      assertThat(site.get(client, "/spots").status()).isEqualTo(200);
      site.site().setPassword("dry boots and a wooden tripod");
      assertThat(site.get(client, "/spots").status()).isEqualTo(303);
      assertThat(LockedSite.logIn(client, LockedSite.PASSWORD)).isEmpty();
      String cookie = LockedSite.logIn(client, "dry boots and a wooden tripod");
      assertThat(client.get("/spots", HOST, "Cookie: " + cookie).status()).isEqualTo(200);

      site.site().clock().advance(Sessions.LONGEST_IDLE.minusSeconds(1));
      assertThat(client.get("/spots", HOST, "Cookie: " + cookie).status()).isEqualTo(200);
      site.site().clock().advance(Sessions.LONGEST_IDLE);
      assertThat(client.get("/spots", HOST, "Cookie: " + cookie).status()).isEqualTo(303);

      site.site().ledger().change(session -> session.settings().set("owner.password", OLDER));
      String renewed = LockedSite.logIn(client, "password");
      assertThat(site.site().ledger().read(OwnerPassword::of).orElseThrow())
          .startsWith("$argon2id$v=19$m=65536,t=3,p=4$");
      assertThat(client.get("/spots", HOST, "Cookie: " + renewed).status()).isEqualTo(200);

      site.site().ledger().change(OwnerPassword::remove);
      assertThat(client.get("/spots", HOST, "Cookie: " + cookie).status()).isEqualTo(303);
      assertThat(LockedSite.tryPassword(client, "").body()).contains("No password is set");
    }
  }

  @ParameterizedTest
  @CsvSource({
    "light.example.org, 303",
    "LIGHT.example.org:443, 303",
    "localhost, 303",
    "[::1]:4180, 303",
    "light.example.org:80, 403",
    "evil.example, 403",
    "light.example.org.evil.example, 403",
    "127.0.0.1.evil.example, 403",
    "192.168.1.7, 403"
  })
  void onlyTheDeclaredNameAndLoopbackAreAnswered(String host, int status) {
    assertThat(locked.client().get("/spots", "Host: " + host).status()).isEqualTo(status);
  }

  @Test
  void withoutAPasswordAProxyIsToldToHaveOne(@TempDir Path other) {
    try (TestSite open = new TestSite(other)) {
      RawClient client = new RawClient(open.port());
      assertThat(client.get("/spots").status()).isEqualTo(200);
      for (String header : new String[] {"X-Forwarded-For", "Forwarded", "X-Real-IP"}) {
        RawClient.Answer answer = client.get("/spots", header + ": 203.0.113.7");
        assertThat(answer.status()).isEqualTo(403);
        assertThat(answer.body()).contains("no password", "--owner-address");
      }
      open.setPassword(LockedSite.PASSWORD);
      assertThat(client.get("/spots").status()).isEqualTo(303);
    }
  }
}

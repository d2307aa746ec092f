package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.share.ShareSubject;

/** Every page of the demo's ledger forbids scripts from elsewhere and holds none itself. */
class StrictPolicyTest {
  private static final Pattern INLINE_CODE =
      Pattern.compile("<script(?![^>]*\\ssrc=)|\\son[a-z]+\\s*=|\\sstyle\\s*=|javascript:", 2);

  @TempDir Path folder;

  @Test
  void everyRouteOfTheDemoKeepsToIt() {
    WebSettings settings =
        new WebSettings(
            "127.0.0.1", 0, "127.0.0.1", 0, "https://share.example.org", LockedSite.ORIGIN, null);
    try (TestSite site = new TestSite(folder, settings, LockedSite.PASSWORD).withDemo()) {
      RawClient client = new RawClient(site.port());
      String[] owner = {
        "Host: " + LockedSite.HOST,
        "Origin: " + LockedSite.ORIGIN,
        "Cookie: " + LockedSite.logIn(client, LockedSite.PASSWORD)
      };
      client.post("/shortlists", "title=Autumn", owner);
      client.post("/shortlists/keep", "spot=1&list=1&cover=1", owner);
      client.post("/shortlists/1/shares", "days=60", owner);
      int pages = 0;
      for (Routes.Route route : Routes.reading(site.server().ownerPages())) {
        for (String id : List.of("1", "3", "7")) {
          RawClient.Answer answer = client.get(route.with(id), owner);
          pages += check(route.with(id), answer) ? 1 : 0;
          check(route.with(id), client.get(route.with(id), "Host: " + LockedSite.HOST));
        }
      }
      String token =
          site.ledger()
              .read(session -> session.shares().of(ShareSubject.shortlist(1)))
              .get(0)
              .token();
      // So many wrong links came from here that the right one has to wait.
      site.clock().advance(Duration.ofMinutes(2));
      RawClient.Answer shared =
          new RawClient(site.sharePort()).get("/s/" + token, "Host: share.example.org");
      assertThat(check("the share", shared)).isTrue();
      assertThat(shared.header("Content-Security-Policy").orElseThrow())
          .startsWith("default-src 'none'");
      assertThat(pages).isGreaterThan(15);
    }
  }

  /** Checks an answer; true when it was a page that is there. */
  private static boolean check(String what, RawClient.Answer answer) {
    String policy = answer.header("Content-Security-Policy").orElseThrow();
    assertThat(policy).as(what).matches("default-src '(self|none)'.*").doesNotContain("eval", "*");
    String scripts = policy.contains("script-src") ? policy.split("script-src")[1] : "";
    assertThat(scripts).as(what).doesNotContain("unsafe");
    assertThat(answer.header("X-Content-Type-Options")).as(what).contains("nosniff");
    assertThat(answer.header("X-Frame-Options")).as(what).contains("DENY");
    assertThat(answer.header("Strict-Transport-Security")).as(what).isPresent();
    assertThat(answer.header("Server")).as(what).isEmpty();
    boolean html = answer.header("Content-Type").orElse("").startsWith("text/html");
    if (html && answer.header("Content-Disposition").isEmpty()) {
      assertThat(INLINE_CODE.matcher(answer.body()).results().map(m -> m.group()).toList())
          .as(what)
          .isEmpty();
    }
    return html && answer.status() == 200;
  }
}

package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class OwnerPagesTest {
  private static final Pattern INLINE_CODE =
      Pattern.compile("<script(?![^>]*\\ssrc=)|\\son[a-z]+\\s*=|\\sstyle\\s*=|<style", 2);

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
    site.post("/shortlists", "title", "Autumn");
    site.post("/shortlists/keep", "spot", "1", "list", "1");
  }

  @AfterEach
  void close() {
    site.close();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/spots",
        "/spots/1",
        "/shortlists",
        "/shortlists/1",
        "/import",
        "/attention",
        "/shots/1",
        "/light",
        "/nowhere"
      })
  void everyPageKeepsToAStrictPolicyThatItFulfilsItself(String path) {
    TestSite.Answer answer = site.get(path);

    assertThat(answer.status()).isEqualTo(path.equals("/nowhere") ? 404 : 200);
    assertThat(answer.header("Content-Security-Policy"))
        .contains("default-src 'self'", "script-src 'self'", "style-src 'self'")
        .doesNotContain("unsafe");
    assertThat(answer.header("X-Content-Type-Options")).isEqualTo("nosniff");
    assertThat(answer.header("Cache-Control")).isEqualTo("no-store");
    assertThat(INLINE_CODE.matcher(answer.text()).results().map(m -> m.group())).isEmpty();
    assertThat(answer.text()).contains("<html lang=\"en\">", "<h1");
  }

  @ParameterizedTest
  @CsvSource({
    "localhost, 200",
    "127.0.0.1, 200",
    "[::1], 200",
    "LOCALHOST, 200",
    "evil.example, 403",
    "localhost.evil.example, 403",
    "127.0.0.1.evil.example, 403",
    "10.0.0.4, 403"
  })
  void onlyNamesOfThisMachineReachTheOwnersPages(String host, int status) {
    String line =
        site.raw("GET /spots HTTP/1.1", "Host: " + host + ":" + site.port(), "Connection: close");

    assertThat(line).startsWith("HTTP/1.1 " + status);
  }

  @ParameterizedTest
  @CsvSource({
    "Sec-Fetch-Site, cross-site",
    "Sec-Fetch-Site, same-site",
    "Origin, https://evil.example",
    "Origin, null"
  })
  void anotherSitesFormChangesNothing(String header, String value) {
    TestSite.Answer answer = site.post("/shortlists", List.of(header, value), "title", "planted");

    assertThat(answer.status()).isEqualTo(403);
    assertThat(site.get("/shortlists").text()).doesNotContain("planted");
  }

  @Test
  void thePagesOwnFormsAreTaken() {
    TestSite.Answer answer =
        site.post(
            "/shortlists",
            List.of("Sec-Fetch-Site", "same-origin", "Origin", site.address()),
            "title",
            "own");

    assertThat(answer.status()).isEqualTo(303);
    assertThat(site.get("/shortlists").text()).contains("own");
  }

  @Test
  void assetsMayBeKeptForEverBecauseTheirAddressHoldsTheirFingerprint() {
    String page = site.get("/").text();
    var links =
        Pattern.compile("/static/([0-9a-f]{12})/([a-z.]+)").matcher(page).results().toList();

    assertThat(links).hasSizeGreaterThan(9);
    assertThat(links)
        .allSatisfy(
            link -> {
              TestSite.Answer asset = site.get(link.group());
              assertThat(asset.status()).isEqualTo(200);
              assertThat(asset.header("Cache-Control")).contains("immutable");
              assertThat(asset.body()).isNotEmpty();
              assertThat(site.get("/static/000000000000/" + link.group(2)).status()).isEqualTo(404);
            });
  }

  @Test
  void aCallerThatAsksForJsonGetsTheProblemAsJson() {
    TestSite.Answer answer = site.get("/spots/99", "Accept", "application/json");

    assertThat(answer.status()).isEqualTo(404);
    assertThat(answer.header("Content-Type")).startsWith("application/problem+json");
    assertThat(answer.text())
        .contains(
            "\"status\":404", "\"detail\":\"There is no spot with this number.\"", "\"toDo\"");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"/spots/abc", "/spots/-1", "/shortlists/99", "/shots/99/preview?w=480", "/s/"})
  void whatIsNotThereIsNotFoundWithAWayOn(String path) {
    TestSite.Answer answer = site.get(path);

    assertThat(answer.status()).isEqualTo(404);
    assertThat(answer.text()).contains("href=\"/\"").doesNotContain("Exception", "java.");
  }

  @Test
  void theLightPageShowsTheThresholdsOfTheRules() {
    assertThat(site.get("/light").text())
        .contains(
            "0° to 30° from the line of view", "105° to 150°", "higher than 60°", "down to 6°");
  }

  @Test
  void anEmptyLedgerTeachesWhatToDo(@TempDir Path empty) {
    try (TestSite fresh = new TestSite(empty)) {
      assertThat(fresh.get("/").text()).contains("holds no spots yet", "href=\"/import\"");
      assertThat(fresh.get("/spots").text()).contains("No spots yet", "href=\"/import\"");
      assertThat(fresh.get("/shortlists").text()).contains("No shortlist yet");
      assertThat(fresh.get("/attention").text()).contains("Nothing waits for you");
    }
  }
}

package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ShareRoutesTest {
  private static final Pattern LINK = Pattern.compile("value=\"(http://[^\"]+(/s/[^\"]+))\"");

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
    site.post(
        "/spots/1",
        "name",
        "Mill race",
        "area",
        "Secret valley",
        "notes",
        "key under the stone",
        "cautions",
        "wet steps");
    site.post("/shortlists", "title", "Autumn portraits");
    site.post("/shortlists/1", "title", "Autumn portraits", "message", "Dear Ana");
    site.post(
        "/shortlists/keep",
        "spot",
        "1",
        "list",
        "1",
        "from",
        "2026-12-10T16:20:00+01:00",
        "to",
        "2026-12-10T17:40:00+01:00",
        "light",
        "backlit",
        "facing",
        "234.0",
        "cover",
        "1");
    site.post("/shortlists/1/entries/1", "words", "Wide grass", "cover", "1");
  }

  @AfterEach
  void close() {
    site.close();
  }

  private String share(String... form) {
    assertThat(site.post("/shortlists/1/shares", form).status()).isEqualTo(303);
    Matcher matcher = LINK.matcher(site.get("/shortlists/1").text());
    assertThat(matcher.find()).isTrue();
    assertThat(matcher.group(1)).startsWith("http://127.0.0.1:" + site.sharePort() + "/s/");
    return matcher.group(1);
  }

  @Test
  void theClientSeesWhatWasMeantForThemAndNothingElse() {
    TestSite.Answer answer = site.getAt(share("days", "60"));

    assertThat(answer.status()).isEqualTo(200);
    assertThat(answer.text())
        .contains("Autumn portraits", "Dear Ana", "Mill race", "Wide grass", "wet steps")
        .contains("Thursday 10 December 2026, from 16:20 to 17:40", "The sun is behind you")
        .doesNotContain("41.95", "6.61", "key under the stone", "Secret valley")
        .doesNotContain("/spots/", "/shots/", "1-mill-a.jpg", folder.toString(), "<script");
  }

  @Test
  void exactPlacesAreShownOnlyWhenTheOwnerSaysSo() {
    assertThat(site.getAt(share("exact", "yes")).text()).contains("41.9500", "geo:41.9500");
  }

  @Test
  void theAnswerIsKeptByNobodyAndFoundByNobody() {
    TestSite.Answer answer = site.getAt(share());

    assertThat(answer.header("Cache-Control")).isEqualTo("no-store");
    assertThat(answer.header("Referrer-Policy")).isEqualTo("same-origin");
    assertThat(answer.header("X-Robots-Tag")).contains("noindex");
    assertThat(answer.header("Content-Security-Policy"))
        .startsWith("default-src 'none'")
        .containsPattern("style-src 'sha256-[A-Za-z0-9+/]{43}='")
        .doesNotContain("unsafe");
  }

  @Test
  void thePictureComesWithoutMetadataAndOnlyThoseOfTheListCome() {
    String link = share();
    TestSite.Answer picture = site.getAt(link + "/picture/1");

    assertThat(picture.header("Content-Type")).isEqualTo("image/jpeg");
    assertThat(picture.header("Cache-Control")).isEqualTo("no-store");
    assertThat(new String(picture.body(), StandardCharsets.ISO_8859_1)).doesNotContain("Exif");
    for (String number : new String[] {"0", "2", "-1", "x"}) {
      assertThat(site.getAt(link + "/picture/" + number).status()).as(number).isEqualTo(404);
    }
  }

  @Test
  void openingIsNotedForTheOwner() {
    String link = share();
    assertThat(site.get("/shortlists/1").text()).contains("not opened yet");
    site.clock().advance(Duration.ofHours(2));
    site.getAt(link);

    assertThat(site.get("/shortlists/1").text()).contains("last opened Wed 25 Nov 2026, 13:00");
  }

  @Test
  void aLinkTakenBackIsGoneWithItsPictures() {
    String link = share();
    assertThat(site.post("/shortlists/1/shares/1/revoke").status()).isEqualTo(303);
    TestSite.Answer answer = site.getAt(link);

    assertThat(answer.status()).isEqualTo(410);
    assertThat(answer.text()).contains("no longer open").doesNotContain("Mill race", "Autumn");
    assertThat(site.getAt(link + "/picture/1").status()).isEqualTo(410);
    assertThat(site.get("/shortlists/1").text()).contains("revoked");
  }

  @Test
  void aLinkEndsWithItsDays() {
    String link = share("days", "7");
    site.clock().advance(Duration.ofDays(7).minusSeconds(1));
    assertThat(site.getAt(link).status()).isEqualTo(200);
    site.clock().advance(Duration.ofSeconds(1));

    assertThat(site.getAt(link).status()).isEqualTo(410);
  }

  @ParameterizedTest
  @ValueSource(strings = {"AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA", "short", "..%2f..%2fspots"})
  void anUnknownLinkLeadsNowhere(String token) {
    int status = site.getAt("http://127.0.0.1:" + site.sharePort() + "/s/" + token).status();

    assertThat(status).isIn(400, 404);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"/", "/spots", "/spots/1", "/shortlists", "/shots/1/preview?w=480", "/import"})
  void theClientsListenerHasNoneOfTheOwnersPages(String path) {
    assertThat(site.get(path).status()).isEqualTo(200);
    TestSite.Answer answer = site.getAt("http://127.0.0.1:" + site.sharePort() + path);

    assertThat(answer.status()).isEqualTo(404);
    assertThat(answer.text()).doesNotContain("Mill race");
  }

  @Test
  void theFileNeedsNoServer() {
    TestSite.Answer file = site.get("/shortlists/1/file");

    assertThat(file.header("Content-Disposition"))
        .isEqualTo("attachment; filename=\"autumn-portraits.html\"");
    assertThat(file.text())
        .contains("<style>", "data:image/jpeg;base64,", "Mill race", "Wide grass")
        .doesNotContain("<script", "src=\"/", "href=\"/", "http://", "https://", "41.95")
        .doesNotContain("This is what your client sees");
  }

  @Test
  void theOwnerSeesThePageBeforehand() {
    TestSite.Answer preview = site.get("/shortlists/1/preview");

    assertThat(preview.text()).contains("This is what your client sees", "Mill race");
    assertThat(site.get("/shortlists/1").text())
        .as("a look of the owner is not counted as the client's")
        .doesNotContain("last opened");
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-5", "1000000", "soon", "1e300"})
  void anImpossibleTermIsRefused(String days) {
    assertThat(site.post("/shortlists/1/shares", "days", days).status()).isEqualTo(422);
  }
}

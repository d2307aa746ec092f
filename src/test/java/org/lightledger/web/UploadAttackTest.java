package org.lightledger.web;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Uploads that are too large, broken off, nonsense, or named so as to land elsewhere. */
class UploadAttackTest {
  private static final String TYPE = "multipart/form-data; boundary=cut";

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

  private static String part(String disposition, String content) {
    return "--cut\r\nContent-Disposition: " + disposition + "\r\n\r\n" + content + "\r\n";
  }

  private static String file(String field, String name, String content) {
    return part("form-data; name=\"" + field + "\"; filename=\"" + name + "\"", content);
  }

  /** Bodies, by what is wrong with them; "FIELD" stands for the field of the form. */
  private static Map<String, String[]> bodies() {
    String end = "--cut--\r\n";
    Map<String, String[]> bodies = new LinkedHashMap<>();
    bodies.put("nothing", new String[] {TYPE, ""});
    bodies.put("only an end", new String[] {TYPE, end});
    bodies.put("no boundary", new String[] {"multipart/form-data", file("FIELD", "a", "x") + end});
    bodies.put("an empty boundary", new String[] {"multipart/form-data; boundary=", end});
    bodies.put(
        "a huge boundary", new String[] {"multipart/form-data; boundary=" + "b".repeat(3000), end});
    bodies.put("another boundary", new String[] {"multipart/form-data; boundary=no", end});
    bodies.put("a broken quote", new String[] {"multipart/form-data; boundary=\"cut", end});
    bodies.put("no end", new String[] {TYPE, file("FIELD", "a.jpg", "x")});
    bodies.put("cut in a header", new String[] {TYPE, "--cut\r\nContent-Disposition: form-da"});
    bodies.put("no name", new String[] {TYPE, part("form-data", "x") + end});
    bodies.put("no disposition", new String[] {TYPE, "--cut\r\n\r\nx\r\n" + end});
    bodies.put("another disposition", new String[] {TYPE, part("attachment", "x") + end});
    bodies.put(
        "a header without a colon", new String[] {TYPE, "--cut\r\nnonsense\r\n\r\nx\r\n" + end});
    bodies.put(
        "a huge header",
        new String[] {TYPE, "--cut\r\nX-Long: " + "x".repeat(200_000) + "\r\n\r\nx\r\n" + end});
    bodies.put("many parts", new String[] {TYPE, file("FIELD", "a.jpg", "x").repeat(3000) + end});
    bodies.put(
        "many fields", new String[] {TYPE, part("form-data; name=\"x\"", "1").repeat(3000) + end});
    bodies.put("no file name", new String[] {TYPE, file("FIELD", "", "x") + end});
    for (String name :
        new String[] {
          "../../planted.jpg",
          "..\\..\\planted.jpg",
          "/planted.jpg",
          "C:\\planted.jpg",
          "a\u0000.jpg",
          "..",
          ".",
          "%2e%2e%2fplanted.jpg",
          "-rf.jpg",
          "x\r\nX-Planted: 1.jpg",
          "a\"b'c<zz-probe>.jpg",
          "CON.jpg",
          "n".repeat(2000) + ".jpg",
          "../ledger.gpkg"
        }) {
      bodies.put("named " + name, new String[] {TYPE, file("FIELD", name, "no picture") + end});
    }
    bodies.put(
        "nested",
        new String[] {
          TYPE,
          "--cut\r\nContent-Disposition: form-data; name=\"FIELD\"\r\nContent-Type:"
              + " multipart/mixed; boundary=in\r\n\r\n--in\r\n\r\nx\r\n--in--\r\n"
              + end
        });
    bodies.put(
        "another charset",
        new String[] {TYPE + "; charset=utf-99", file("FIELD", "a.jpg", "x") + end});
    bodies.put(
        "base64",
        new String[] {
          TYPE,
          "--cut\r\nContent-Disposition: form-data; name=\"FIELD\";"
              + " filename=\"a\"\r\nContent-Transfer-Encoding: base64\r\n\r\n!!!\r\n"
              + end
        });
    bodies.put(
        "a charset", new String[] {TYPE, part("form-data; name=\"_charset_\"", "utf-99") + end});
    bodies.put("deep brackets", new String[] {"application/json", "[".repeat(100_000)});
    bodies.put(
        "a bomb of names", new String[] {"application/x-www-form-urlencoded", "a&".repeat(20_000)});
    bodies.put(
        "broken escapes", new String[] {"application/x-www-form-urlencoded", "FIELD=%zz&%=%"});
    bodies.put(
        "another form charset",
        new String[] {"application/x-www-form-urlencoded; charset=utf-99", "FIELD=1"});
    return bodies;
  }

  private static RawClient.Answer send(
      RawClient client, String target, String type, String body, String... more) {
    List<String> headers = new ArrayList<>(locked.owner());
    headers.add("Content-Type: " + type);
    headers.addAll(List.of(more));
    return client.send("POST", target, headers.toArray(String[]::new), body.getBytes(ISO_8859_1));
  }

  private static List<String> strayFiles() throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files
          .map(path -> folder.relativize(path).toString())
          .filter(
              name -> !name.startsWith("ledger/imported") && !name.startsWith("ledger/ledger.gpkg"))
          .sorted()
          .toList();
    }
  }

  @Test
  void nothingBrokenDoesHarmOnAnyRouteThatTakesAForm() throws IOException {
    RawClient client = locked.client();
    List<String> before = strayFiles();
    for (Routes.Route route : Routes.changing(locked.site().server().ownerPages())) {
      if (route.path().equals("/logout")) {
        continue;
      }
      for (Map.Entry<String, String[]> body : bodies().entrySet()) {
        locked.site().clock().advance(java.time.Duration.ofMillis(250));
        String field = route.path().equals("/import/files") ? "files" : "file";
        RawClient.Answer answer =
            send(
                client,
                route.with("99"),
                body.getValue()[0],
                body.getValue()[1].replace("FIELD", field));
        assertThat(answer.status()).as("%s: %s", route, body.getKey()).isBetween(200, 499);
        assertThat(answer.header("X-Planted")).isEmpty();
        assertThat(answer.body()).doesNotContain("<zz-probe>", "Exception", folder.toString());
      }
    }

    assertThat(client.sent()).isGreaterThan(1200);
    assertThat(strayFiles()).isEqualTo(before);
    assertThat(Files.exists(Path.of("/planted.jpg"))).isFalse();
    assertThat(locked.site().filesIn("imported"))
        .allMatch(name -> name.matches("[A-Za-z0-9._-]{1,110}"));
    LedgerState.assertSound(locked.site().ledgerFolder());
  }

  @Test
  void whatIsTooLargeIsRefusedBeforeItIsRead() {
    RawClient client = locked.client();
    for (Routes.Route route : Routes.changing(locked.site().server().ownerPages())) {
      if (route.path().equals("/logout")) {
        continue;
      }
      String form =
          "POST "
              + route.with("99")
              + " HTTP/1.1\r\n"
              + String.join("\r\n", locked.owner())
              + "\r\nConnection: close\r\nContent-Type: application/x-www-form-urlencoded"
              + "\r\nContent-Length: 1000001\r\n\r\nx="
              + "x".repeat(999_999);
      assertThat(client.exchange(form.getBytes(ISO_8859_1)).status())
          .as(route.toString())
          .isIn(0, 303, 404, 413, 422, 403, 400, 429);
    }
    RawClient.Answer upload =
        send(client, "/import/files", TYPE, "", "Content-Length: " + 300_000_000L);
    assertThat(upload.status()).isEqualTo(413);
  }

  @Test
  void whoSendsWithoutEndIsToldToWait() {
    RawClient client = locked.client();
    int held = 0;
    String from = "X-Forwarded-For: 203.0.113.99";
    for (int i = 0; i < Limits.UPLOADS + 50; i++) {
      RawClient.Answer answer = send(client, "/import/files", TYPE, "--cut--\r\n", from);
      if (answer.status() == 429) {
        assertThat(answer.header("Retry-After")).contains("1");
        held++;
      } else {
        assertThat(answer.status()).isIn(400, 422);
      }
    }
    assertThat(held).isEqualTo(50);
    assertThat(List.of("198.51.100.9", "198.51.100.10", "198.51.100.11"))
        .as("networks that sent nothing; one may share the exhausted cell")
        .filteredOn(
            other ->
                send(client, "/import/files", TYPE, "--cut--\r\n", "X-Forwarded-For: " + other)
                        .status()
                    != 429)
        .hasSizeGreaterThanOrEqualTo(2);
  }
}

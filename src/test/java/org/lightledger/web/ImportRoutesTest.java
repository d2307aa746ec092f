package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ImportRoutesTest {
  private static final byte[] GOOD =
      TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1);
  private static final byte[] TIMELESS = TestPhotos.shot(null, "", 41.95, -6.61, 232.0, 1);
  private static final byte[] BROKEN = "not a picture".getBytes(StandardCharsets.US_ASCII);

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder);
  }

  @AfterEach
  void close() {
    site.close();
  }

  private static int tally(String page, String kind) {
    Matcher matcher = Pattern.compile("data-tally=\"" + kind + "\">(\\d+)<").matcher(page);
    assertThat(matcher.find()).as(kind).isTrue();
    return Integer.parseInt(matcher.group(1));
  }

  @Test
  void oneBadFileNeverStopsTheRestAndEachIsReportedWithItsReason() {
    Map<String, byte[]> files = new LinkedHashMap<>();
    files.put("broken.jpg", BROKEN);
    files.put("good.jpg", GOOD);
    files.put("timeless.jpg", TIMELESS);
    String report = site.upload(files).text();

    assertThat(tally(report, "added")).isEqualTo(1);
    assertThat(tally(report, "attention")).isEqualTo(1);
    assertThat(tally(report, "unreadable")).isEqualTo(1);
    assertThat(report).contains("broken.jpg", "good.jpg", "timeless.jpg", "href=\"/spots/1\"");
    assertThat(report.split("<ul class=\"quiet small\">", -1).length - 1).isGreaterThanOrEqualTo(2);
    assertThat(site.get("/attention").text()).contains("timeless.jpg");
  }

  @Test
  void uploadedFilesAreKeptOnceAndThoseWithoutAShotNotAtAll() {
    site.upload(Map.of("good.jpg", GOOD));
    site.upload(Map.of("broken.jpg", BROKEN));
    String again = site.upload(Map.of("another name.jpg", GOOD)).text();

    assertThat(tally(again, "known")).isEqualTo(1);
    assertThat(site.filesIn("imported")).hasSize(1).allMatch(name -> name.endsWith("-good.jpg"));
  }

  @ParameterizedTest
  @CsvSource({
    "../../evil.jpg, evil.jpg",
    "C:\\photos\\DSC 1.jpg, DSC_1.jpg",
    "folder/inner/é.jpg, _.jpg",
    "/, picture"
  })
  void aNameFromOutsideNeverLeavesTheFolder(String sent, String kept) {
    assertThat(Uploads.safe(sent)).isEqualTo(kept);
  }

  @Test
  void aVeryLongNameIsCutAndKeepsItsEnding() {
    assertThat(Uploads.safe("x".repeat(500) + ".jpg")).hasSize(80).endsWith(".jpg");
  }

  @Test
  void nothingChosenIsSaid() {
    TestSite.Answer answer = site.upload(Map.of());

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text()).contains("expected 1 to 500 files at once, found 0");
  }

  @Test
  void anUploadBeyondTheLimitIsRefusedBeforeItIsSent() {
    String line =
        site.raw(
            "POST /import/files HTTP/1.1",
            "Host: localhost:" + site.port(),
            "Content-Type: multipart/form-data; boundary=x",
            "Content-Length: 900000000",
            "Connection: close");

    assertThat(line).startsWith("HTTP/1.1 413");
  }

  @Test
  void aFolderIsImportedInTheBackgroundAndNothingIsCopied() throws InterruptedException {
    Path photos = site.writePhotos();
    TestSite.Answer started = site.post("/import/folder", "folder", photos.toString());

    assertThat(started.status()).isEqualTo(303);
    String job = waitForJob();
    assertThat(job).contains("4 of 4 files", ", done", photos.toString());
    assertThat(tally(job, "added")).isEqualTo(4);
    assertThat(job).doesNotContain("hx-get");
    assertThat(site.filesIn("imported")).isEmpty();
    assertThat(site.get("/spots").text()).contains("3 spots");
  }

  private String waitForJob() throws InterruptedException {
    for (int tries = 0; tries < 300; tries++) {
      String part = site.get("/import/jobs/1", "HX-Request", "true").text();
      if (!part.contains("every 1s")) {
        return part;
      }
      Thread.sleep(100);
    }
    throw new AssertionError("the import did not end within 30 seconds");
  }

  @Test
  void aCancelledImportKeepsWhatItHasRead() throws InterruptedException {
    Path many = folder.resolve("many");
    for (int i = 0; i < 400; i++) {
      TestSite.write(
          many,
          "shot-" + i + ".jpg",
          TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95 + i * 1e-5, -6.61, 232.0, 1));
    }
    site.post("/import/folder", "folder", many.toString());
    site.post("/import/jobs/1/cancel");
    String job = waitForJob();

    assertThat(job).contains("ended; what was read stays");
    long read = site.ledger().read(session -> session.shots().counts().all());
    assertThat(read).isLessThan(400);
  }

  @ParameterizedTest
  @CsvSource({"''", "photos", "/no/such/folder", "'\0'"})
  void aPathThatIsNoFolderIsNamed(String path) {
    TestSite.Answer answer = site.post("/import/folder", "folder", path);

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text()).contains("One field needs another look", "Folder</a>: expected");
  }
}

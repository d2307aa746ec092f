package org.lightledger.web;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.session.Answer;
import org.lightledger.session.Session;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.spot.Trait;

class ClientReplyTest {
  @TempDir static Path folder;
  private static SharedWorld world;

  @BeforeAll
  static void open() {
    world = new SharedWorld(folder);
  }

  @AfterAll
  static void close() {
    world.close();
  }

  private static Share session() {
    return world.share(ShareSubject.session(world.sessionId), false, false);
  }

  private static Returned returned(Share share) {
    return world.site.ledger().read(session -> session.replies().of(share.id()));
  }

  private static List<Answer> answers() {
    return world.site.ledger().read(s -> s.questionnaire().answers(world.sessionId));
  }

  private static SharedWorld.Served reply(Share share, String... form) {
    return world.post(world.link(share) + "/reply", List.of(), form);
  }

  @Test
  void whatAClientSaysIsKeptShownAgainAndSeenByTheOwner() {
    Share share = session();
    String mill = share.keys().spot(1);
    SharedWorld.Served sent =
        reply(
            share,
            "favourite",
            mill,
            "comment-" + mill,
            "So green",
            "words",
            "Can the dog come?",
            "places-" + share.keys().question(1),
            "water",
            "answer-" + share.keys().question(2),
            "In the mist");

    assertThat(sent.status()).isEqualTo(303);
    String page = world.get("http://127.0.0.1:" + world.site.sharePort() + sent.location()).text();
    assertThat(page).contains("Your answers have arrived", "So green", "the dog", "In the mist");
    assertThat(page).containsPattern("value=\"" + mill + "\" checked");
    assertThat(page).containsPattern("value=\"water\" checked");
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(1, true, "So green"));
    assertThat(answers())
        .filteredOn(Answer::byClient)
        .extracting(Answer::words)
        .contains("In the mist");
    assertThat(answers())
        .filteredOn(Answer::byClient)
        .anyMatch(a -> a.places().equals(Set.of(Trait.WATER)));
    assertThat(answers())
        .as("what the owner typed in stays")
        .anyMatch(answer -> !answer.byClient() && answer.words().startsWith("Tupfelin"));
    String owner = world.site.get("/sessions/" + world.sessionId + "/share").text();
    assertThat(owner).contains("So green", "favourite", "the dog", "In the mist", "New:");
    assertThat(world.site.get("/replies").text()).contains("So green");
    assertThat(world.site.get("/spots").text()).containsPattern("[0-9]+ new repl(y|ies)</a>");
    world.site.post("/shares/" + share.id() + "/read");
    assertThat(world.site.ledger().read(s -> s.shares().find(share.id())).orElseThrow().hasNews())
        .isFalse();
  }

  @Test
  void aClientChangesAndEmptiesItsOwnAnswersAlone() {
    Share share = session();
    String second = "answer-" + share.keys().question(2);
    String third = "answer-" + share.keys().question(3);
    reply(share, second, "One", third, "");
    reply(share, second, "", third, "");

    assertThat(answers()).noneMatch(answer -> answer.questionId() == 2);
    assertThat(answers()).anyMatch(answer -> answer.questionId() == 3 && !answer.byClient());
    assertThat(answers()).noneMatch(answer -> answer.words().contains("Nerbovald"));
  }

  @Test
  void namesOfAnotherShareChangeNothing() {
    Share share = session();
    Share other = session();
    reply(share, "favourite", other.keys().spot(1), "favourite", "1", "comment-1", "x");

    assertThat(returned(share).picks()).isEmpty();
    assertThat(returned(other).isEmpty()).isTrue();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Origin: https://elsewhere.example",
        "Origin: null",
        "Origin: http://127.0.0.1:1",
        "Sec-Fetch-Site: cross-site",
        "Sec-Fetch-Site: same-site"
      })
  void aForeignPagesChangeIsRefused(String header) {
    Share share = session();
    List<String> headers = List.of(header.split(": ", 2));
    String link = world.link(share);

    assertThat(world.post(link + "/reply", headers, "words", "x").status()).isEqualTo(403);
    assertThat(world.upload(link + "/outfits", headers, picture()).status()).isEqualTo(403);
    assertThat(world.post(link + "/outfits/1/remove", headers).status()).isEqualTo(403);
    assertThat(returned(share).isEmpty()).isTrue();
  }

  @Test
  void itsOwnPagesChangeIsTaken() {
    Share share = session();
    String origin = "http://127.0.0.1:" + world.site.sharePort();
    List<String> own = List.of("Origin", origin, "Sec-Fetch-Site", "same-origin");

    assertThat(world.post(world.link(share) + "/reply", own, "words", "x").status()).isEqualTo(303);
  }

  @Test
  void aWrongRevokedOrFilesTokenTakesNothing() {
    String base = "http://127.0.0.1:" + world.site.sharePort() + "/s/";
    assertThat(world.post(base + "A".repeat(32) + "/reply", List.of(), "words", "x").status())
        .isEqualTo(404);
    Share file = world.share(ShareSubject.session(world.sessionId), true, false);
    assertThat(reply(file, "words", "x").status()).isEqualTo(404);
    Share share = session();
    world.site.post("/sessions/" + world.sessionId + "/shares/" + share.id() + "/revoke");
    assertThat(reply(share, "words", "x").status()).isEqualTo(410);
    assertThat(world.upload(world.link(share) + "/outfits", List.of(), picture()).status())
        .isEqualTo(410);
    assertThat(returned(share).isEmpty()).isTrue();
  }

  @Test
  void whatIsTooLongIsRefusedAndNothingIsKept() {
    Share share = session();
    assertThat(reply(share, "words", "x".repeat(4001)).status()).isEqualTo(422);
    assertThat(reply(share, "comment-" + share.keys().spot(1), "x".repeat(2001)).status())
        .isEqualTo(422);
    SharedWorld.Served flood = reply(share, "words", "x".repeat(1_100_000));
    assertThat(flood.status()).isEqualTo(413);
    assertThat(flood.text()).doesNotContain("/spots", "Lightledger");
    assertThat(returned(share).isEmpty()).isTrue();
    assertThat(reply(share, "words", "é☀".repeat(2000)).status()).isEqualTo(303);
  }

  @Test
  void markupStaysText() {
    Share share = session();
    String mill = share.keys().spot(1);
    String hostile = HostileTextTest.HOSTILE;
    reply(
        share,
        "comment-" + mill,
        hostile,
        "words",
        hostile,
        "answer-" + share.keys().question(4),
        hostile);
    for (String page :
        List.of(
            world.get(world.link(share)).text(),
            world.site.get("/sessions/" + world.sessionId + "/share").text(),
            world.site.get("/shares/" + share.id() + "/look").text(),
            world.site.get("/replies").text(),
            world.site.get("/shares/" + share.id() + "/file").text())) {
      assertThat(page).contains("&lt;probe-x").doesNotContain("<probe-x", "\"'>");
    }
  }

  @Test
  void aDayTakesNoMoreThanItsBounds() {
    Share share = session();
    for (int i = 0; i < ReplyRoutes.MOST_CHANGES_A_DAY; i++) {
      assertThat(reply(share, "words", "x").status()).isEqualTo(303);
    }
    assertThat(reply(share, "words", "y").status()).isEqualTo(429);
    assertThat(returned(share).words()).isEqualTo("x");
    world.site.clock().advance(Duration.ofDays(1));
    assertThat(reply(share, "words", "y").status()).isEqualTo(303);
  }

  @Test
  void picturesAreKeptAnewSeenAndRemovedByBothSides() throws IOException {
    Share share = session();
    String link = world.link(share);
    byte[] sent = SharedWorld.marked(TestPhotos.shot(null, "", 41.954, -6.604, 10.0, 6));
    assertThat(world.upload(link + "/outfits", List.of(), sent, sent).status()).isEqualTo(303);

    List<Returned.Outfit> kept = returned(share).outfits();
    assertThat(kept).hasSize(2);
    byte[] jpeg = world.get(link + "/outfits/" + kept.get(0).id()).body();
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(jpeg));
    assertThat(image.getHeight()).as("turned upright").isEqualTo(TestPhotos.WIDTH);
    assertThat(new String(jpeg, ISO_8859_1)).doesNotContain("Exif", "GPS", "Xandrovik");
    Share other = session();
    assertThat(world.get(world.link(other) + "/outfits/" + kept.get(0).id()).status())
        .isEqualTo(404);
    assertThat(
            world
                .post(world.link(other) + "/outfits/" + kept.get(0).id() + "/remove", List.of())
                .status())
        .isEqualTo(404);
    String owners = "/shares/" + share.id() + "/outfits/" + kept.get(0).id();
    assertThat(world.site.get(owners).body()).isEqualTo(jpeg);
    assertThat(world.site.post(owners + "/remove").status()).isEqualTo(303);
    assertThat(world.post(link + "/outfits/" + kept.get(1).id() + "/remove", List.of()).status())
        .isEqualTo(303);
    assertThat(returned(share).outfits()).isEmpty();
    assertThat(world.site.filesIn(".")).noneMatch(name -> name.contains("outfit"));
  }

  @Test
  void theThirteenthPictureIsRefused() {
    Share share = session();
    byte[][] many = new byte[13][];
    Arrays.fill(many, picture());
    SharedWorld.Served answer = world.upload(world.link(share) + "/outfits", List.of(), many);

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text()).contains("12 pictures have arrived, not all");
    assertThat(returned(share).outfits()).hasSize(12);
    assertThat(world.upload(world.link(share) + "/outfits", List.of(), picture()).status())
        .isEqualTo(422);
    assertThat(returned(share).outfits()).hasSize(12);
  }

  @Test
  void whatIsNoPictureOrTooLargeIsRefused() {
    Share share = session();
    String link = world.link(share) + "/outfits";
    for (byte[] bad :
        List.of(
            "<svg onload=alert(1)>".getBytes(UTF_8),
            "<html><script>".getBytes(UTF_8),
            new byte[] {(byte) 0xff, (byte) 0xd8, (byte) 0xff, 0},
            pngThatClaims(30_000, 30_000),
            png(8000, 5001),
            Arrays.copyOf(picture(), (int) OutfitMaker.MOST_BYTES + 1))) {
      assertThat(world.upload(link, List.of(), bad).status()).isEqualTo(422);
    }
    assertThat(returned(share).outfits()).isEmpty();
    assertThat(world.upload(link, List.of(), png(8000, 5000)).status()).isEqualTo(303);
    byte[] padded = Arrays.copyOf(picture(), (int) OutfitMaker.MOST_BYTES);
    assertThat(world.upload(link, List.of(), padded).status()).isEqualTo(303);
  }

  @Test
  void anUploadThatIsBrokenOrFarTooLargeIsRefused() {
    Share share = session();
    String link = world.link(share) + "/outfits";
    List<String> broken = List.of("Content-Type", "multipart/form-data; boundary=edge");
    assertThat(world.postBytes(link, broken, "--edge\r\nno header".getBytes(UTF_8)).status())
        .isEqualTo(400);
    String first =
        world.site.raw(
            "POST /s/" + share.token() + "/outfits HTTP/1.1",
            "Host: localhost",
            "Content-Type: multipart/form-data; boundary=edge",
            "Content-Length: " + (ReplyRoutes.MOST_UPLOAD + 1));
    assertThat(first).contains(" 413");
    assertThat(returned(share).isEmpty()).isTrue();
  }

  @Test
  void aSessionThatIsOverTakesNoAnswers() {
    Share share = session();
    world.site.ledger().change(s -> s.sessions().setState(world.sessionId, Session.State.DONE));
    try {
      assertThat(world.get(world.link(share)).text()).doesNotContain("Send my answers");
      assertThat(reply(share, "words", "late").status()).isEqualTo(409);
    } finally {
      world
          .site
          .ledger()
          .change(s -> s.sessions().setState(world.sessionId, Session.State.PLANNED));
    }
  }

  @Test
  void theOwnerSharesASessionHandsOverAndErasesItsClient() {
    String page = "/sessions/" + world.otherSessionId;
    assertThat(world.site.post(page + "/shares", "days", "7").status()).isEqualTo(422);
    assertThat(world.site.post(page + "/shares", "questions", "yes", "as", "file").status())
        .isEqualTo(303);
    assertThat(world.site.get(page + "/share").text())
        .contains("file, answers are taken until revoked", "the questions");
    assertThat(world.site.get(page + "/preview").text()).contains("Which pictures", "disabled");
    assertThat(world.site.get("/clients/2/data").text()).contains("1 session, 1 answer, 1 share");
    assertThat(world.site.get("/clients/2/export").header("Content-Type"))
        .isEqualTo("application/zip");
    assertThat(world.site.post("/clients/2/erase").status()).isEqualTo(422);
    assertThat(world.site.get("/clients").text()).contains("Berta");
    assertThat(world.site.post("/clients/2/erase", "sure", "yes").status()).isEqualTo(303);
    assertThat(world.site.get("/clients").text()).doesNotContain("Berta Brimzotal");
    assertThat(world.site.get(page + "/share").status()).isEqualTo(404);
  }

  @Test
  void aReturnedFileIsTakenInOnceItsSignatureIsRight() {
    Share share = world.share(ShareSubject.shortlist(world.listId), true, false);
    Share other = world.share(ShareSubject.shortlist(world.listId), true, false);
    String mill = share.keys().spot(1);
    String reply =
        "{\"favourites\":[\"" + mill + "\"],\"comments\":{},\"words\":\"Yes\",\"answers\":{}}";
    String file = ReplyFile.write(share.keys(), reply);
    String changed = file.replace("Yes", "Yet");
    String moved = file.replace(share.keys().keyId(), other.keys().keyId());
    String unknown = file.replace(share.keys().keyId(), "0".repeat(16));

    assertRefused(changed, "was changed since or belongs to another share");
    assertRefused(moved, "was changed since or belongs to another share");
    assertRefused(unknown, "a share of this ledger");
    assertRefused("{}", "found another one");
    assertRefused("no", "no JSON object");
    assertRefused(file.replace("\"version\":1", "\"version\":2"), "version 1");
    assertRefused("[".repeat(100_000), "no JSON object");
    assertRefused("\"" + "x".repeat(ReplyFile.MOST_BYTES), "at most");
    assertThat(returned(share).isEmpty()).isTrue();
    assertThat(world.site.postFile("/replies", "reply", file.getBytes(UTF_8)).status())
        .isEqualTo(303);
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(1, true, ""));
    assertThat(returned(share).words()).isEqualTo("Yes");
    assertThat(world.site.postFile("/replies", "reply", changed.getBytes(UTF_8)).text())
        .contains("was changed since");
    assertThat(
            world.site.postFile("/replies", "reply", new byte[ReplyFile.MOST_BYTES + 1]).status())
        .isEqualTo(422);
  }

  private static void assertRefused(String file, String words) {
    Instant now = world.site.clock().instant();
    assertThatThrownBy(() -> world.site.ledger().change(s -> ReplyDesk.takeFile(s, file, now)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(words);
  }

  private static byte[] picture() {
    return TestPhotos.shot(null, "", 41.95, -6.61, null, 1);
  }

  /** A PNG of some bytes whose header claims a size; its pixels would be there if it were read. */
  private static byte[] pngThatClaims(int width, int height) {
    ByteBuffer png = ByteBuffer.wrap(png(1, 1));
    png.putInt(16, width).putInt(20, height);
    CRC32 crc = new CRC32();
    crc.update(png.array(), 12, 17);
    png.putInt(29, (int) crc.getValue());
    return png.array();
  }

  /** A black PNG of a size: some kilobytes, however many pixels it has. */
  private static byte[] png(int width, int height) {
    try {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      ImageIO.write(new BufferedImage(width, height, BufferedImage.TYPE_BYTE_BINARY), "png", out);
      return out.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

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
import org.lightledger.session.Client;
import org.lightledger.session.Contact;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.spot.Trait;
import org.lightledger.store.SessionSamples;

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
    forget(1, 2);
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
    assertThat(world.site.get("/sessions/" + world.sessionId).text())
        .as("where the session is prepared")
        .contains("Nilo wrote", "Can the dog come?");
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
    forget(2);
    reply(share, page(share).type(second, "One").sent());
    assertThat(answers()).anyMatch(answer -> answer.words().equals("One"));
    reply(share, page(share).type(second, "").type(third, "").sent());

    assertThat(answers()).noneMatch(answer -> answer.questionId() == 2);
    assertThat(answers()).anyMatch(answer -> answer.questionId() == 3 && !answer.byClient());
    assertThat(answers()).noneMatch(answer -> answer.words().contains("Nerbovald"));
  }

  @Test
  void aSessionThatIsCancelledInvitesNobodyAndTheOwnerIsToldToSaySo() {
    Share link = session();
    Share file = world.share(ShareSubject.session(world.sessionId), true, false);
    String page = "/sessions/" + world.sessionId;
    Session.State before =
        world.site.ledger().read(s -> s.sessions().find(world.sessionId)).orElseThrow().state();
    assertThat(world.site.get(page).text()).doesNotContain("Tell Marta Zilbonta");
    world.site.post(page + "/state", "state", "CANCELLED");
    try {
      String seen = world.get(world.link(link)).text();
      assertThat(seen)
          .contains("Nilo, Saturday 12 December 2026", "This session is cancelled")
          .doesNotContain("Meet at", "fountain", "16:00", "Mill race", "<textarea", "<input")
          .doesNotContain("proposed yet", "a plan, not a promise");
      assertThat(world.site.get("/shares/" + file.id() + "/file").text())
          .contains("This session is cancelled")
          .doesNotContain("Meet at", "<textarea");
      assertThat(world.site.get("/shares/" + link.id() + "/look").text())
          .contains("This session is cancelled")
          .doesNotContain("<textarea");
      assertThat(reply(link, "words", "I come").text()).contains("This session is cancelled");
      assertThat(returned(link).words()).isEmpty();
      assertThat(world.site.get(page).text())
          .contains("Tell Marta Zilbonta in your own words")
          .contains("share " + link.id(), "share " + file.id(), "can not be changed any more");
      assertThat(world.site.get(page + "/messages").text())
          .contains("the session is cancelled")
          .doesNotContain("Copy the text", "/copied\"", "An open link for the client would");
      assertThat(world.site.get(page + "/call-sheet").text()).contains("<h1>CANCELLED: Nilo,");
      assertThat(world.site.get("/field?session=" + world.sessionId).text())
          .contains("This session is cancelled.");
    } finally {
      world.site.post(page + "/state", "state", before.name());
    }
    assertThat(world.get(world.link(link)).text())
        .contains("Meet at")
        .doesNotContain("This session is cancelled");
    assertThat(world.site.get("/field?session=" + world.sessionId).text())
        .doesNotContain("This session is cancelled.");
  }

  private static void forget(long... questions) {
    for (long question : questions) {
      world.site.ledger().change(s -> s.questionnaire().removeAnswer(world.sessionId, question));
    }
  }

  private static PageForm page(Share share) {
    return form(share, world.get(world.link(share)).text());
  }

  private static PageForm form(Share share, String page) {
    return PageForm.of(page, "/s/" + share.token() + "/reply");
  }

  private static PageForm ownersAnswers(String page) {
    return PageForm.of(page, "/sessions/" + world.sessionId + "/answers");
  }

  private static String ownersPage() {
    return world.site.get("/sessions/" + world.sessionId).text();
  }

  @Test
  void theOwnersOlderPageLeavesWhatAClientAnsweredMeanwhile() {
    forget(1, 2, 5);
    Share share = session();
    PageForm older = ownersAnswers(ownersPage());
    String places = "places-" + share.keys().question(1);
    String second = "answer-" + share.keys().question(2);
    reply(share, page(share).tick(places, "water", true).type(second, "Fog\nand mist").sent());

    TestSite.Answer saved =
        world.site.post(
            "/sessions/" + world.sessionId + "/answers",
            older.type("answer-5", "Kites").tick("places-1", "woods", true).sent());

    assertThat(saved.status()).isEqualTo(303);
    assertThat(answers())
        .anyMatch(answer -> answer.questionId() == 2 && answer.words().equals("Fog\nand mist"))
        .anyMatch(answer -> answer.questionId() == 2 && answer.byClient())
        .anyMatch(answer -> answer.places().equals(Set.of(Trait.WATER, Trait.WOODS)))
        .anyMatch(answer -> answer.questionId() == 5 && answer.words().equals("Kites"));
  }

  @Test
  void anAnswerThatBothSidesChangedStaysAndTheOwnerIsTold() {
    forget(2, 4);
    Share share = session();
    String address = "/sessions/" + world.sessionId + "/answers";
    PageForm older = ownersAnswers(ownersPage());
    String second = "answer-" + share.keys().question(2);
    reply(share, page(share).type(second, "In the mist").sent());

    TestSite.Answer refused =
        world.site.post(
            address, older.type("answer-2", "Told by phone").type("answer-4", "Shy").sent());

    assertThat(refused.status()).isEqualTo(409);
    assertThat(refused.text())
        .contains("the client changed meanwhile", "In the mist", "href=\"#f-answer-2\"");
    assertThat(answers())
        .anyMatch(answer -> answer.byClient() && answer.words().equals("In the mist"))
        .noneMatch(answer -> answer.questionId() == 4);
    PageForm again = ownersAnswers(refused.text());
    assertThat(again.words("answer-2")).isEqualTo("Told by phone");
    assertThat(again.words("answer-4")).isEqualTo("Shy");
    assertThat(world.site.post(address, again.sent()).status()).isEqualTo(303);
    assertThat(answers())
        .anyMatch(answer -> !answer.byClient() && answer.words().equals("Told by phone"))
        .anyMatch(answer -> answer.questionId() == 4);
  }

  @Test
  void aRefusedFormOfTheOwnersIsNoWayAroundAnAnswer() {
    forget(2);
    Share share = session();
    String address = "/sessions/" + world.sessionId + "/answers";
    PageForm older = ownersAnswers(ownersPage());
    reply(share, page(share).type("answer-" + share.keys().question(2), "In the mist").sent());
    TestSite.Answer refused =
        world.site.post(address, older.type("answer-5", "x".repeat(4001)).sent());
    assertThat(refused.status()).isEqualTo(422);
    PageForm again = ownersAnswers(refused.text());
    assertThat(again.words("answer-2")).isEqualTo("In the mist");

    assertThat(world.site.post(address, again.type("answer-5", "Kites").sent()).status())
        .isEqualTo(303);
    assertThat(answers())
        .anyMatch(answer -> answer.byClient() && answer.words().equals("In the mist"));
  }

  @Test
  void aSecondDeviceLeavesWhatTheFirstOneSaid() {
    forget(1, 2, 4);
    Share share = session();
    String mill = share.keys().spot(1);
    String wall = share.keys().spot(2);
    String places = "places-" + share.keys().question(1);
    PageForm first = page(share);
    PageForm second = page(share);
    reply(
        share,
        first
            .tick("favourite", mill, true)
            .type("comment-" + mill, "So green")
            .type("words", "Can the dog come?")
            .tick(places, "water", true)
            .type("answer-" + share.keys().question(2), "In the mist")
            .sent());

    SharedWorld.Served sent =
        reply(
            share,
            second
                .tick("favourite", wall, true)
                .tick(places, "woods", true)
                .type("answer-" + share.keys().question(4), "Crowds")
                .sent());

    assertThat(sent.status()).isEqualTo(303);
    assertThat(returned(share).picks())
        .containsExactly(new Returned.Pick(1, true, "So green"), new Returned.Pick(2, true, ""));
    assertThat(returned(share).words()).isEqualTo("Can the dog come?");
    assertThat(answers())
        .anyMatch(answer -> answer.words().equals("In the mist"))
        .anyMatch(answer -> answer.words().equals("Crowds"))
        .anyMatch(answer -> answer.places().equals(Set.of(Trait.WATER, Trait.WOODS)));
    reply(share, page(share).tick("favourite", mill, false).tick(places, "water", false).sent());
    assertThat(returned(share).picks())
        .containsExactly(new Returned.Pick(1, false, "So green"), new Returned.Pick(2, true, ""));
    assertThat(answers()).anyMatch(answer -> answer.places().equals(Set.of(Trait.WOODS)));
  }

  @Test
  void whatTwoDevicesChangedStaysAndTheSecondIsToldWithItsWords() {
    forget(2, 4);
    Share share = session();
    String comment = "comment-" + share.keys().spot(1);
    String answer = "answer-" + share.keys().question(2);
    PageForm first = page(share);
    PageForm second = page(share);
    reply(
        share,
        first
            .type(comment, "So green")
            .type("words", "The dog?")
            .type(answer, "In the mist")
            .sent());

    SharedWorld.Served told =
        reply(
            share,
            second
                .type(comment, "Too wet")
                .type("words", "The cat?")
                .type(answer, "In the sun")
                .type("answer-" + share.keys().question(4), "Crowds")
                .sent());

    assertThat(told.status()).isEqualTo(409);
    assertThat(told.text())
        .contains("changed in another place meanwhile", "So green", "The dog?", "In the mist");
    PageForm again = form(share, told.text());
    assertThat(again.words(comment)).isEqualTo("Too wet");
    assertThat(again.words("words")).isEqualTo("The cat?");
    assertThat(again.words(answer)).isEqualTo("In the sun");
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(1, false, "So green"));
    assertThat(returned(share).words()).isEqualTo("The dog?");
    assertThat(answers())
        .anyMatch(one -> one.words().equals("In the mist"))
        .anyMatch(one -> one.words().equals("Crowds"));
    assertThat(reply(share, again.sent()).status()).isEqualTo(303);
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(1, false, "Too wet"));
    assertThat(returned(share).words()).isEqualTo("The cat?");
    assertThat(answers()).anyMatch(one -> one.words().equals("In the sun"));
  }

  @Test
  void anOldPageOfAClientTellsNothingOfWhatTheOwnerTyped() {
    forget(2);
    Share share = session();
    String answer = "answer-" + share.keys().question(2);
    reply(share, page(share).type(answer, "In the mist").sent());
    PageForm older = page(share);
    world.site.post(
        "/sessions/" + world.sessionId + "/answers",
        ownersAnswers(ownersPage()).type("answer-2", "Nerbovald, by phone").sent());

    SharedWorld.Served told = reply(share, older.type(answer, "In the sun").sent());

    assertThat(told.status()).isEqualTo(409);
    assertThat(told.text()).doesNotContain("Nerbovald").contains("In the sun");
    assertThat(answers()).anyMatch(one -> one.words().equals("Nerbovald, by phone"));
    assertThat(reply(share, form(share, told.text()).sent()).status()).isEqualTo(303);
    assertThat(answers()).anyMatch(one -> one.byClient() && one.words().equals("In the sun"));
  }

  @Test
  void aTickOnAnOldPageTakesNothingOfWhatTheOwnerMadeOfAnAnswer() {
    forget(1);
    Share share = session();
    String places = "places-" + share.keys().question(1);
    reply(share, page(share).tick(places, "water", true).sent());
    PageForm older = page(share);
    world.site.post(
        "/sessions/" + world.sessionId + "/answers",
        ownersAnswers(ownersPage()).type("answer-1", "Nerbovald, by phone").sent());

    assertThat(reply(share, older.sent()).status()).isEqualTo(303);
    assertThat(reply(share, older.tick(places, "water", false).sent()).status()).isEqualTo(303);
    SharedWorld.Served told = reply(share, older.tick(places, "woods", true).sent());

    assertThat(told.status()).isEqualTo(409);
    assertThat(answers())
        .anyMatch(one -> one.questionId() == 1 && one.words().equals("Nerbovald, by phone"))
        .noneMatch(one -> one.places().contains(Trait.WOODS));
    PageForm again = form(share, told.text());
    assertThat(again.ticked(places, "water")).isTrue();
    assertThat(again.ticked(places, "woods")).isTrue();
    assertThat(reply(share, again.sent()).status()).isEqualTo(303);
    assertThat(answers())
        .anyMatch(one -> one.byClient() && one.places().equals(Set.of(Trait.WATER, Trait.WOODS)));
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
    forget(4);
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
  void aDeletedSessionTakesItsLinkAlongAndAsksFirst() {
    long id =
        world
            .site
            .ledger()
            .write(
                session -> {
                  long client = session.sessions().find(world.sessionId).orElseThrow().clientId();
                  long made = session.sessions().add(SessionSamples.session(client));
                  session.plans().keep(made, SessionSamples.plan(1));
                  return made;
                });
    Share share = world.share(ShareSubject.session(id), false, false);
    String path = "/sessions/" + id;
    assertThat(world.site.get(path).text())
        .contains("Delete this session", "the session, 1 plan, 1 share.");
    TestSite.Answer asked = world.site.post(path + "/delete");
    assertThat(asked.status()).isEqualTo(422);
    assertThat(asked.text())
        .contains("expected the tick that says you are sure", "<details class=\"deletion\" open");
    assertThat(world.get(world.link(share)).status()).isEqualTo(200);

    TestSite.Answer gone = world.site.post(path + "/delete", "sure", "yes");

    assertThat(gone.header("Location")).isEqualTo("/sessions");
    assertThat(world.site.get(path).status()).isEqualTo(404);
    assertThat(world.get(world.link(share)).status()).isEqualTo(404);
    assertThat(world.site.get("/sessions/" + world.sessionId).status()).isEqualTo(200);
    assertThat(world.site.post(path + "/delete", "sure", "yes").status()).isEqualTo(404);
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
    assertThat(reply(share, page(share).type("words", "y").sent()).status()).isEqualTo(303);
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

  @Test
  void whatWasSaidOfAPlaceThatLeftThePageStays() {
    Share share = session();
    String mill = share.keys().spot(1);
    String wall = share.keys().spot(2);
    reply(
        share,
        page(share)
            .tick("favourite", wall, true)
            .type("comment-" + mill, "So green")
            .type("comment-" + wall, "My first choice")
            .sent());
    PageForm open = page(share);
    KeptPlan plan = world.site.ledger().read(s -> s.plans().find(world.sessionId)).orElseThrow();
    keep(shorter(plan));
    try {
      assertThat(reply(share, open.type("words", "See you").sent()).status()).isEqualTo(303);
      assertThat(reply(share, page(share).type("words", "Soon").sent()).status()).isEqualTo(303);
      assertThat(takeIn(share, "\"words\":\"As ever\"")).isEqualTo(share.id());
      SharedWorld.Served told =
          reply(share, open.type("words", "As ever").type("comment-" + wall, "Never").sent());
      assertThat(told.status()).isEqualTo(409);
      assertThat(told.text()).contains("no longer on this page", "Never");
    } finally {
      keep(plan);
    }
    assertThat(returned(share).picks())
        .containsExactly(new Returned.Pick(2, true, "My first choice"));
    assertThat(page(share).words("comment-" + wall)).isEqualTo("My first choice");
  }

  private static void keep(KeptPlan plan) {
    world.site.ledger().change(session -> session.plans().keep(world.sessionId, plan));
  }

  private static KeptPlan shorter(KeptPlan plan) {
    return new KeptPlan(
        plan.madeAt(),
        plan.sky(),
        plan.byHand(),
        plan.callTime(),
        plan.end(),
        plan.meeting(),
        plan.stops().subList(0, 1));
  }

  /** Takes in a file whose reply has some fields. */
  private static long takeIn(Share share, String fields) {
    String file = ReplyFile.write(share.keys(), "{" + fields + "}");
    Instant now = world.site.clock().instant();
    return world.site.ledger().write(s -> ReplyDesk.takeFile(s, file, now)).id();
  }

  @Test
  void anOlderFileIsRefusedOnceANewerOneWasTaken() {
    Share share = world.share(ShareSubject.shortlist(world.listId), true, false);
    String mill = share.keys().spot(1);
    String changed = "\"changed\":{\"comments\":[\"" + mill + "\"],\"words\":true}";
    String older =
        "\"comments\":{\""
            + mill
            + "\":\"Old\"},\"words\":\"Old\","
            + changed
            + ",\"saved\":\"2026-11-24T10:00:00.000Z\"";
    String newer = older.replace("Old", "New").replace("24T10:00:00", "24T10:00:01");
    takeIn(share, newer);

    assertRefused(
        ReplyFile.write(share.keys(), "{" + older + "}"), "found one that was saved before it");
    takeIn(share, newer);
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(1, false, "New"));
    assertThat(returned(share).words()).isEqualTo("New");
    takeIn(share, older.replace("Old", "Newest").replace("24T10:00:00", "24T11:00:00"));
    assertThat(returned(share).words()).isEqualTo("Newest");
    takeIn(share, "\"words\":\"From an older page\"");
    assertThat(returned(share).words()).isEqualTo("From an older page");
    assertThat(returned(share).picks()).as("it says nothing of spots").isEmpty();
  }

  @Test
  void aFileOfAWrongClockKeepsNoOtherOut() {
    Share share = world.share(ShareSubject.shortlist(world.listId), true, false);
    String saved = "\"words\":\"Ahead\",\"saved\":\"2031-01-01T00:00:00Z\"";
    takeIn(share, saved);
    takeIn(share, saved.replace("Ahead", "Right").replace("2031-01-01", "2026-11-24"));

    assertThat(returned(share).words()).isEqualTo("Right");
    assertRefused(ReplyFile.write(share.keys(), "{\"saved\":\"yesterday\"}"), "when it was saved");
  }

  @Test
  void aFileLeavesWhatItDidNotChange() {
    Share share = world.share(ShareSubject.shortlist(world.listId), true, false);
    String mill = share.keys().spot(1);
    String wall = share.keys().spot(2);
    takeIn(
        share,
        ("\"favourites\":[\"%1$s\"],\"comments\":{\"%1$s\":\"So green\"},\"words\":\"Yes\","
                + "\"changed\":{\"favourites\":[\"%1$s\"],\"comments\":[\"%1$s\"],\"words\":true},"
                + "\"saved\":\"2026-11-24T10:00:00Z\"")
            .formatted(mill));
    takeIn(
        share,
        ("\"favourites\":[\"%2$s\"],\"comments\":{},\"words\":\"\","
                + "\"changed\":{\"favourites\":[\"%1$s\",\"%2$s\"],\"comments\":[],\"words\":false},"
                + "\"saved\":\"2026-11-24T10:01:00Z\"")
            .formatted(mill, wall));

    assertThat(returned(share).picks())
        .containsExactly(new Returned.Pick(1, false, "So green"), new Returned.Pick(2, true, ""));
    assertThat(returned(share).words()).isEqualTo("Yes");
  }

  @Test
  void theBoxesOfAnAnswerInAFileAreTheWholeAnswer() {
    forget(1);
    Share share = session();
    String question = share.keys().question(1);
    reply(share, page(share).tick("places-" + question, "water", true).sent());
    takeIn(share, "\"answers\":{\"" + question + "\":{\"words\":\"\",\"places\":[\"woods\"]}}");

    assertThat(answers()).anyMatch(answer -> answer.places().equals(Set.of(Trait.WOODS)));
  }

  @Test
  void aSessionOfWhichAClientKnowsGoesToNobodyElse() {
    Share share = session();
    reply(share, page(share).type("words", "Mine").sent());
    Client cora = new Client(0, "Cora Dunn", "Cora", false, Contact.NONE, null, "", "");
    long other = world.site.ledger().write(s -> s.clients().add(cora));
    TestSite.Answer refused =
        world.site.post(
            "/sessions/" + world.sessionId,
            "client",
            String.valueOf(other),
            "date",
            "2026-12-13",
            "anchor",
            "sunset",
            "minutes",
            "0");

    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("href=\"#f-client\"", "1 sent message", "book a new session for the other");
    assertThat(world.get(world.link(share)).text()).contains("Nilo, Saturday 12 December 2026");
    assertThat(world.site.ledger().read(s -> s.clientRecords().all(other)).toString())
        .doesNotContain("Mine", "gralmix");
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

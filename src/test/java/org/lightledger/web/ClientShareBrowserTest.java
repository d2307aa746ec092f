package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.session.Answer;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SpaEphemeris;

/** A stranger opens a share, by the link and as a file, and answers. */
class ClientShareBrowserTest {
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

  private static Returned returned(Share share) {
    return world.site.ledger().read(session -> session.replies().of(share.id()));
  }

  @ParameterizedTest
  @EnumSource(Browser.Viewport.class)
  void aClientAnswersByTheLinkAndByTheFile(Browser.Viewport viewport) throws IOException {
    Path profile = folder.resolve("profile-" + viewport);
    for (long question : new long[] {1, 2}) {
      world.site.ledger().change(s -> s.questionnaire().removeAnswer(world.sessionId, question));
    }
    try (Browser browser = Browser.open(viewport, world.site.address(), profile)) {
      byTheLink(browser);
      byTheFile(browser, viewport);
      ownersSide(browser);
      assertThat(browser.complaints()).isEmpty();
    }
  }

  private static void byTheLink(Browser browser) throws IOException {
    Share share = world.share(ShareSubject.session(world.sessionId), false, false);
    String mill = share.keys().spot(1);
    Path outfit = folder.resolve("outfit.jpg");
    Files.write(outfit, TestPhotos.shot(null, "", 41.954, -6.604, 10.0, 1));
    browser.go(world.link(share));
    browser.look("client-session");
    assertThat(browser.find("h2").getText()).isEqualTo("Meet at 16:00");
    browser.click("input[name=favourite][value='" + mill + "']");
    browser.find("#c-" + mill).sendKeys("So green");
    browser.click("input[name=places-" + share.keys().question(1) + "][value=water]");
    browser.find("#a-" + share.keys().question(2)).sendKeys("In the mist");
    browser.click("#reply .send");
    browser.await(".notice");
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(1, true, "So green"));

    browser.find("#f-pictures").sendKeys(outfit.toAbsolutePath().toString());
    browser.click(".sendpictures .send");
    browser.await(".wardrobe img");
    browser.look("client-session-answered");
    assertThat(returned(share).outfits()).hasSize(1);
    browser.click(".wardrobe .send");
    browser.await(".notice", notice -> notice.getText().contains("gone"));
    assertThat(returned(share).outfits()).isEmpty();
  }

  private static void byTheFile(Browser browser, Browser.Viewport viewport) throws IOException {
    Share share = world.share(ShareSubject.session(world.sessionId), true, false);
    String mill = share.keys().spot(1);
    Path page = folder.resolve("page-" + viewport + ".html");
    Path saved = Files.createDirectories(folder.resolve("saved-" + viewport));
    Files.writeString(page, ShareFile.html(world.site.ledger(), new SpaEphemeris(), share.id()));
    browser.saveInto(saved);
    browser.go(page.toUri().toString());
    browser.look("client-file");
    browser.click("input[name=favourite][value='" + mill + "']");
    browser.find("#c-" + mill).sendKeys("Größe ☀ \"quoted\"");
    browser.click("input[name=places-" + share.keys().question(1) + "][value=woods]");
    browser.find("#all-words").sendKeys("See you there");
    assertThat(mail(browser)).contains("Mill%20race", "See%20you%20there").startsWith("mailto:");
    browser.run("document.getElementById('all-words').value = 'wörter '.repeat(500)");
    assertThat(mail(browser)).hasSizeLessThanOrEqualTo(1900).contains("rest%20is%20in");
    browser.run("document.getElementById('all-words').value = 'See you there'");
    browser.click("[data-saving]");
    browser.await("[data-said]", said -> said.getText().startsWith("Saved"));
    String reply = whenThere(saved);
    Instant now = Instant.now();
    world.site.ledger().change(session -> ReplyDesk.takeFile(session, reply, now));
    assertThat(returned(share).picks())
        .containsExactly(new Returned.Pick(1, true, "Größe ☀ \"quoted\""));
    assertThat(returned(share).words()).isEqualTo("See you there");
    savedAnew(browser, share, saved, reply);
    List<Answer> answers =
        world.site.ledger().read(s -> s.questionnaire().answers(world.sessionId));
    assertThat(answers)
        .as("water by the link, woods by the file that was made after it")
        .anyMatch(a -> a.byClient() && a.places().equals(Set.of(Trait.WATER, Trait.WOODS)))
        .anyMatch(answer -> answer.byClient() && answer.words().equals("In the mist"));
  }

  /** The page tells what it changed since it was opened, and when it made a file. */
  private static void savedAnew(Browser browser, Share share, Path saved, String first)
      throws IOException {
    String mill = share.keys().spot(1);
    String wall = share.keys().spot(2);
    browser.click("input[name=favourite][value='" + mill + "']");
    browser.click("input[name=favourite][value='" + wall + "']");
    browser.find("#c-" + mill).clear();
    browser.click("[data-saving]");
    String second = whenThere(saved);
    Instant now = Instant.now();
    world.site.ledger().change(session -> ReplyDesk.takeFile(session, second, now));
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(2, true, ""));
    assertThat(returned(share).words()).isEqualTo("See you there");
    assertThatThrownBy(
            () -> world.site.ledger().change(session -> ReplyDesk.takeFile(session, first, now)))
        .hasMessageContaining("found one that was saved before it");
    assertThat(returned(share).picks()).containsExactly(new Returned.Pick(2, true, ""));
  }

  /** The prepared e-mail, caught before a mail program would open. */
  private static String mail(Browser browser) {
    browser.run(
        "window.caught = ''; HTMLAnchorElement.prototype.click = function () {"
            + " window.caught = this.href; };"
            + " document.querySelector('[data-mailing]').click();"
            + " delete HTMLAnchorElement.prototype.click;");
    return String.valueOf(browser.run("return window.caught"));
  }

  /** What the page saved; the folder is empty afterwards. */
  private static String whenThere(Path saved) throws IOException {
    for (int i = 0; i < 100; i++) {
      try (Stream<Path> files = Files.list(saved)) {
        List<Path> done = files.filter(file -> file.toString().endsWith(".json")).toList();
        if (!done.isEmpty()) {
          String content = Files.readString(done.get(0));
          Files.delete(done.get(0));
          return content;
        }
      }
      LockSupport.parkNanos(50_000_000);
    }
    throw new AssertionError("the page saved no file");
  }

  private static void ownersSide(Browser browser) {
    browser.go("/sessions/" + world.sessionId + "/share");
    browser.look("session-share");
    assertThat(browser.all(".cameback")).isNotEmpty();
    browser.go("/replies");
    browser.look("replies");
    long share = world.site.ledger().read(s -> s.shares().replied().get(0).id());
    browser.go("/shares/" + share + "/look");
    browser.look("client-look");
    assertThat(browser.find(".owner").getText()).startsWith("This is what your client sees");
    browser.go("/clients/1/data");
    browser.look("client-data");
  }
}

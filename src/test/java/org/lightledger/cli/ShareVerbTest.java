package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Share;
import org.lightledger.store.Ledger;
import org.lightledger.store.SessionSamples;

/** Sharing a session, taking in what comes back, and what is held about a client. */
class ShareVerbTest {
  @TempDir Path folder;

  @BeforeEach
  void fill() {
    CliPhotos.write(folder.resolve("photos"), "a.jpg", 41.93, -6.42);
    run("import", folder.resolve("photos").toString());
    try (Ledger ledger = open()) {
      ledger.change(
          session -> {
            long client = session.clients().add(SessionSamples.minor());
            long id = session.sessions().add(SessionSamples.session(client));
            session.plans().keep(id, SessionSamples.plan(1));
            session.shortlists().create("For Nilo Quiroga Saavedra", "");
          });
    }
  }

  private Ledger open() {
    return Ledger.open(folder.resolve("ledger"), Clock.fixed(Console.NOW, ZoneOffset.UTC));
  }

  private Console.Outcome run(String... words) {
    return new Console(folder.resolve("ledger")).run(words);
  }

  private Share share(long id) {
    try (Ledger ledger = open()) {
      return ledger.read(session -> session.shares().find(id)).orElseThrow();
    }
  }

  @Test
  void aSessionGoesOutAsAFileAndItsReplyComesBack() throws IOException {
    Path page = folder.resolve("page.html");
    assertThat(run("share", "file", "session:1", "--out", page.toString()).out())
        .contains("(share 1)");
    assertThat(Files.readString(page))
        .contains("Nilo, Tuesday 30 June 2026", "At the fountain", "Which pictures")
        .doesNotContain("Quiroga", "Saavedra");

    Path reply = folder.resolve("reply.json");
    String answers = "{\"answers\":{\"" + share(1).keys().question(2) + "\":{\"words\":\"Mist\"}}}";
    Files.writeString(reply, ReplyFile.write(share(1).keys(), answers));
    assertThat(run("share", "take", reply.toString()).out())
        .contains("the reply to share 1, of session 1");
    try (Ledger ledger = open()) {
      assertThat(ledger.read(session -> session.questionnaire().answers(1)).toString())
          .contains("Mist", "byClient=true");
    }
    assertThat(run("share", "revoke", "1").exitCode()).isZero();
    Console.Outcome late = run("share", "take", reply.toString());
    assertThat(late.exitCode()).isEqualTo(2);
    assertThat(late.err()).contains("which you took back");
  }

  @Test
  void whatIsNotAskedForIsNotShown() throws IOException {
    Path page = folder.resolve("page.html");
    run("share", "file", "session:1", "--without-plan", "--out", page.toString());
    assertThat(Files.readString(page)).contains("Which pictures").doesNotContain("fountain");
    assertThat(run("share", "link", "session:1", "--without-questions", "--json").out())
        .contains("\"sessionId\" : 1", "\"path\" : \"/s/");
  }

  @Test
  void aLinkIsToldWithItsWholeAddressOrWithHowToServeIt() throws IOException {
    Console.Outcome bare = run("share", "link", "session:1");
    assertThat(bare.out()).isEqualTo("Share 1: /s/" + share(1).token() + "\n");
    assertThat(bare.err())
        .contains("opens once your links are served", "serve --share-host", "--share-address");

    String address = "https://light.example.org";
    Console.Outcome whole = run("share", "link", "session:1", "--share-address", address + "/");
    assertThat(whole.out()).isEqualTo("Share 2: " + address + "/s/" + share(2).token() + "\n");
    assertThat(whole.err()).isEmpty();
    String json = run("share", "link", "session:1", "--share-address", address, "--json").out();
    assertThat(new ObjectMapper().readTree(json).get("address").asText())
        .isEqualTo(address + "/s/" + share(3).token());
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "share link session:1 --share-address http://localhost:4181",
        "share link session:9",
        "share link nine",
        "share link session:1 --days 0",
        "share take nowhere.json",
        "client export 9 --out x.zip",
        "client erase 1",
        "client erase 9 --yes",
        "session delete 1",
        "session delete 9 --yes"
      })
  void badUsageIsExplained(String command) {
    Console.Outcome outcome = run(command.split(" "));

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err()).contains("expected", "found");
    assertThat(outcome.out()).isEmpty();
  }

  @Test
  void aSessionIsDeletedWithWhatHangsOnIt() throws IOException {
    Console.Outcome deleted = run("session", "delete", "1", "--yes", "--json");

    assertThat(deleted.exitCode()).isZero();
    assertThat(new ObjectMapper().readTree(deleted.out()).get("deleted").asLong()).isEqualTo(1);
    assertThat(deleted.err()).contains("calendar entries");
    assertThat(run("session", "show", "1").exitCode()).isEqualTo(2);
    assertThat(run("check").exitCode()).isZero();
  }

  @Test
  void aClientIsHandedOverAndErased() throws IOException {
    Path zip = folder.resolve("client.zip");
    assertThat(run("client", "export", "1", "--out", zip.toString()).exitCode()).isZero();
    try (ZipFile held = new ZipFile(zip.toFile())) {
      String json =
          new String(
              held.getInputStream(held.getEntry("client.json")).readAllBytes(),
              StandardCharsets.UTF_8);
      assertThat(json).contains("Nilo Quiroga Saavedra", "marta@example.org", "2026-06-30");
    }
    assertThat(run("client", "export", "1", "--out", zip.toString()).exitCode()).isEqualTo(2);

    Console.Outcome erased = run("client", "erase", "1", "--yes");

    assertThat(erased.exitCode()).isZero();
    assertThat(erased.err()).contains("title or message of shortlist 1", "Backups made before");
    assertThat(run("client", "erase", "1", "--yes").exitCode()).isEqualTo(2);
    assertThat(run("check").exitCode()).isZero();
  }
}

package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.session.mail.MailServer;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.session.outgoing.Studio;
import org.lightledger.store.Ledger;
import org.lightledger.store.Samples;
import org.slf4j.LoggerFactory;

class SessionFilesTest {
  @TempDir Path folder;

  /** The print's library tells everybody that it looks at the machine's fonts once. */
  @Test
  void aLibrarysFirstLookAtTheFontsIsNotTold() {
    String fonts = "org.apache.pdfbox.pdmodel.font.FileSystemFontProvider";
    assertThat(LoggerFactory.getLogger(fonts).isWarnEnabled()).isFalse();
    assertThat(LoggerFactory.getLogger(fonts).isErrorEnabled()).isTrue();
    assertThat(LoggerFactory.getLogger("org.lightledger.web.Pages").isWarnEnabled()).isTrue();
  }

  @Test
  void aSessionGoesOutAsMessageDraftCalendarAndCallSheet() throws Exception {
    try (Ledger ledger = Samples.open(folder)) {
      ledger.change(
          session -> {
            LocalDateTime call = LocalDateTime.of(2026, 12, 15, 15, 0);
            session.spots().insert(OutgoingSamples.spot(1));
            session.clients().add(OutgoingSamples.adult());
            session
                .sessions()
                .add(OutgoingSamples.session(call.toLocalDate(), OutgoingSamples.MADRID));
            session.plans().keep(1, OutgoingSamples.plan(call, OutgoingSamples.MADRID, 1));
            session.settings().set(Studio.NAME, "Estudio Brezo");
            session.settings().set(Studio.EMAIL, "hello@brezo.example");
            session.settings().set(Studio.PHONE, "+34 600 000 001");
            session.settings().set(MailServer.PASSWORD, "kept-in-the-ledger");
          });
    }
    Console console = new Console(folder);
    Path eml = folder.resolve("plan.eml");
    Path ics = folder.resolve("session.ics");
    Path pdf = folder.resolve("sheet.pdf");

    assertThat(console.run("message", "1", "plan").out()).contains("We meet at 15:00 on Tuesday");
    assertThat(console.run("message", "1", "plan", "--out", eml.toString()).exitCode()).isZero();
    assertThat(Files.readString(eml)).contains("X-Unsent: 1");
    assertThat(console.run("message", "1", "plan", "--out", eml.toString()).err())
        .contains("expected a file that does not exist yet");
    assertThat(console.run("message", "1", "plan", "--send"))
        .returns(2, Console.Outcome::exitCode)
        .extracting(Console.Outcome::err)
        .asString()
        .contains("expected a mail server in the settings, found none");
    assertThat(console.run("message", "1", "letter").err())
        .contains("expected one of questions, plan, reminder, found letter");
    assertThat(console.run("message", "1", "reminder", "--out", folder.resolve("r").toString()))
        .returns(1, Console.Outcome::exitCode)
        .extracting(Console.Outcome::err)
        .asString()
        .contains("{{common questions}} has no value");
    String link = console.run("share", "link", "session:1").out();
    assertThat(
            console
                .run("message", "1", "plan", "--share-address", "https://light.example.org")
                .out())
        .contains(
            "yours alone: https://light.example.org" + link.substring(link.indexOf("/s/")).strip());
    assertThat(console.run("message", "1", "plan", "--share-address", "http://localhost:4181"))
        .returns(2, Console.Outcome::exitCode)
        .extracting(Console.Outcome::err)
        .asString()
        .contains("that others reach", "found http://localhost:4181");
    assertThat(console.run("calendar", "1", "--out", ics.toString()).exitCode()).isZero();
    assertThat(Files.readString(ics)).contains("SUMMARY:Session with Berta");
    assertThat(console.run("call-sheet", "1", "--out", pdf.toString()).exitCode()).isZero();
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      assertThat(document.getNumberOfPages()).isEqualTo(1);
    }
    assertThat(console.run("call-sheet", "7", "--out", "x.pdf").err())
        .contains("expected the number of a session, found 7");
    assertThat(console.run("check").err()).contains("LIGHTLEDGER_MAIL_PASSWORD");
    try (Ledger ledger = Samples.open(folder)) {
      assertThat(ledger.<Integer>read(session -> session.messages().ofSession(1).size()))
          .isEqualTo(1);
    }
  }
}

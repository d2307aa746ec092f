package org.lightledger.session.mail;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Date;
import java.util.List;
import java.util.Map;
import org.apache.james.mime4j.dom.Message;
import org.apache.james.mime4j.dom.TextBody;
import org.apache.james.mime4j.dom.address.Mailbox;
import org.apache.james.mime4j.message.DefaultMessageBuilder;
import org.apache.james.mime4j.stream.Field;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.session.MessageKind;
import org.lightledger.session.outgoing.Letter;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.session.outgoing.Studio;

/** What is written here is read by another library. */
class MailLetterTest {
  private static final Instant NOW = Instant.parse("2026-11-25T12:34:56Z");

  static Letter letter(String toName, String subject, String body) {
    return new Letter(MessageKind.PLAN, toName, "berta@example.org", subject, body, List.of());
  }

  private static Message draft(Letter letter, Studio studio) throws Exception {
    byte[] eml = MailLetter.draft(letter, studio, NOW);
    return new DefaultMessageBuilder().parseMessage(new ByteArrayInputStream(eml));
  }

  private static String text(Message message) throws Exception {
    try (InputStream in = ((TextBody) message.getBody()).getInputStream()) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void aDraftIsAMessageThatOthersRead() throws Exception {
    String body = "Hello Berta,\n\nwe meet at 17:10 – by the río 🌅\n" + "x".repeat(1200);

    Message read = draft(letter("Berta", "Where and when: sábado", body), OutgoingSamples.studio());

    assertThat(read.getSubject()).isEqualTo("Where and when: sábado");
    assertThat(read.getMimeType()).isEqualTo("text/plain");
    assertThat(read.getCharset()).isEqualToIgnoringCase("UTF-8");
    assertThat(text(read)).isEqualTo(body.replace("\n", "\r\n") + "\r\n");
    assertThat(read.getDate()).isEqualTo(Date.from(NOW));
    assertThat(read.getHeader().getField("X-Unsent").getBody()).isEqualTo("1");
    assertThat(read.getMessageId()).matches("<[0-9a-f-]{36}@brezo\\.example>");
    assertThat(read.getFrom()).singleElement().returns("Estudio Brezo", Mailbox::getName);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Alonso, Berta",
        "Berta <x@evil.example>, y",
        "Berta \"the\" \\ Alonso",
        "Núñez 🌅 Ærø and a name so long that it takes more than one line of a header for sure",
        "=?utf-8?q?x?=",
        "Berta (comment) ; group:"
      })
  void namesAndSubjectsComeBackAsTheyWereAndNameNobodyElse(String words) throws Exception {
    String plain = words.strip();
    Message read =
        draft(
            letter(plain, plain, "Hello"),
            Studio.of(Map.of(Studio.NAME, plain, Studio.EMAIL, "hello@brezo.example")));

    assertThat(read.getTo()).hasSize(1);
    Mailbox to = (Mailbox) read.getTo().get(0);
    assertThat(to.getAddress()).isEqualTo("berta@example.org");
    assertThat(read.getCc()).isNull();
    assertThat(read.getBcc()).isNull();
    if (!plain.startsWith("=?")) {
      assertThat(to.getName()).isEqualTo(plain);
      assertThat(read.getFrom().get(0).getName()).isEqualTo(plain);
      assertThat(read.getSubject()).isEqualTo(plain);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"x\r\nBcc: all@example.org", "x\nBcc: all@example.org", "x\rBcc: a@b.c"})
  void aLineBreakInANameOrSubjectMakesNoHeader(String hostile) throws Exception {
    Message read = draft(letter(hostile, hostile, "Hello"), OutgoingSamples.studio());

    assertThat(read.getHeader().getFields())
        .extracting(Field::getName)
        .containsExactlyInAnyOrder(
            "From",
            "To",
            "Subject",
            "Date",
            "Message-ID",
            "MIME-Version",
            "Content-Type",
            "Content-Transfer-Encoding",
            "X-Unsent");
  }

  @Test
  void aDomainWithOtherLettersGoesOutAsNameServersKnowIt() throws Exception {
    Letter letter =
        new Letter(MessageKind.PLAN, "Berta", "berta@señal.example", "x", "y", List.of());

    assertThat(draft(letter, OutgoingSamples.studio()).getTo().get(0))
        .hasToString("berta@xn--seal-hqa.example");
  }

  @Test
  void whatCanNotGoOutSaysWhy() {
    Letter noAddress = new Letter(MessageKind.PLAN, "Berta", null, "x", "y", List.of());
    Letter notReady =
        new Letter(MessageKind.PLAN, "Berta", "b@example.org", "x", "y", List.of("no stops"));
    Letter strange = new Letter(MessageKind.PLAN, "B", "bérta@example.org", "x", "y", List.of());

    assertThatThrownBy(() -> MailLetter.draft(noAddress, OutgoingSamples.studio(), NOW))
        .hasMessageContaining("expected an e-mail address of Berta, found none");
    assertThatThrownBy(() -> MailLetter.draft(notReady, OutgoingSamples.studio(), NOW))
        .hasMessageContaining("not ready: no stops");
    assertThatThrownBy(() -> MailLetter.draft(strange, OutgoingSamples.studio(), NOW))
        .hasMessageContaining("plain letters before the @");
    assertThatThrownBy(() -> MailLetter.draft(letter("B", "x", "y"), Studio.of(Map.of()), NOW))
        .hasMessageContaining("expected the studio's e-mail address, found none");
  }
}

package org.lightledger.session.mail;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.Socket;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.lightledger.session.MessageKind;
import org.lightledger.session.mail.MailServer.Security;
import org.lightledger.session.outgoing.ClientLinks;
import org.lightledger.session.outgoing.Composer;
import org.lightledger.session.outgoing.Letter;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.session.outgoing.StandardTemplates;

/** Talks to a real server on this machine. */
class MailerTest {
  private static final Instant NOW = Instant.parse("2026-11-25T12:34:56Z");
  private static final Letter LETTER =
      Composer.compose(
          StandardTemplates.of(MessageKind.PLAN),
          OutgoingSamples.dossier(),
          OutgoingSamples.studio(),
          ClientLinks.NONE);
  private static GreenMail plain;
  private static GreenMail secure;

  @BeforeAll
  static void start() {
    plain = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    plain.setUser("owner@brezo.example", "owner", "secret");
    plain.start();
    secure = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTPS));
    secure.setUser("owner@brezo.example", "owner", "secret");
    secure.start();
  }

  @AfterAll
  static void stop() {
    plain.stop();
    secure.stop();
  }

  @BeforeEach
  void empty() throws Exception {
    plain.purgeEmailFromAllMailboxes();
    secure.purgeEmailFromAllMailboxes();
  }

  private static MailServer server(Security security, int port, String password) {
    return new MailServer("127.0.0.1", port, security, "owner", password);
  }

  private static void send(MailServer server) {
    new Mailer(server).send(LETTER, OutgoingSamples.studio(), NOW);
  }

  @Test
  void theServerGetsWhatWasComposed() throws Exception {
    send(server(Security.NONE, plain.getSmtp().getPort(), "secret"));

    MimeMessage arrived = plain.getReceivedMessages()[0];
    assertThat(plain.getReceivedMessages()).hasSize(1);
    assertThat(arrived.getSubject()).isEqualTo(LETTER.subject());
    assertThat(arrived.getContent().toString().replace("\r\n", "\n").strip())
        .isEqualTo(LETTER.body());
    assertThat(arrived.getFrom()[0]).hasToString("Estudio Brezo <hello@brezo.example>");
    assertThat(arrived.getAllRecipients()).hasSize(1);
    assertThat(arrived.getHeader("X-Unsent")).isNull();
  }

  @Test
  void byTlsFromTheStartItArrivesWhereTheCertificateIsTrusted() {
    new Mailer(
            server(Security.TLS, secure.getSmtps().getPort(), "secret"),
            Map.of("mail.smtp.ssl.trust", "*", "mail.smtp.ssl.checkserveridentity", "false"))
        .send(LETTER, OutgoingSamples.studio(), NOW);

    assertThat(secure.getReceivedMessages()).hasSize(1);
  }

  @Test
  void byStartTlsItArrivesAndNothingButTheGreetingIsSaidInTheClear() throws Exception {
    try (StartTlsRelay relay = new StartTlsRelay(plain.getSmtp().getPort())) {
      new Mailer(
              server(Security.STARTTLS, relay.port(), "secret"),
              Map.of("mail.smtp.ssl.trust", "*", "mail.smtp.ssl.checkserveridentity", "false"))
          .send(LETTER, OutgoingSamples.studio(), NOW);

      assertThat(relay.clear()).containsExactly("EHLO [127.0.0.1]");
    }
    assertThat(plain.getReceivedMessages()).hasSize(1);
    assertThat(plain.getReceivedMessages()[0].getSubject()).isEqualTo(LETTER.subject());
  }

  @Test
  void aCertificateThatNobodyVouchesForIsRefusedAfterStartTlsToo() throws Exception {
    try (StartTlsRelay relay = new StartTlsRelay(plain.getSmtp().getPort())) {
      assertThatThrownBy(() -> send(server(Security.STARTTLS, relay.port(), "secret")))
          .isInstanceOf(MailException.class)
          .hasMessageContaining("certificate is not trusted");
      assertThat(relay.clear()).containsExactly("EHLO [127.0.0.1]");
    }
    assertThat(plain.getReceivedMessages()).isEmpty();
  }

  @Test
  void aCertificateThatNobodyVouchesForIsRefused() {
    assertThatThrownBy(() -> send(server(Security.TLS, secure.getSmtps().getPort(), "secret")))
        .isInstanceOf(MailException.class)
        .hasMessageContaining("certificate is not trusted");
    assertThat(secure.getReceivedMessages()).isEmpty();
  }

  @Test
  void withoutStartTlsNothingIsSaidInTheClear() {
    assertThatThrownBy(() -> send(server(Security.STARTTLS, plain.getSmtp().getPort(), "secret")))
        .isInstanceOf(MailException.class)
        .hasMessageContaining("offers no STARTTLS, and nothing was sent in the clear");
    assertThat(plain.getReceivedMessages()).isEmpty();
  }

  @Test
  void aWrongPasswordIsSaidAndNotRepeated() {
    assertThatThrownBy(() -> send(server(Security.NONE, plain.getSmtp().getPort(), "wr0ng-pass")))
        .isInstanceOf(MailException.class)
        .hasMessageContaining("refuses the name or the password")
        .message()
        .doesNotContain("wr0ng-pass");
    assertThat(plain.getReceivedMessages()).isEmpty();
  }

  /** What a proxy that filters mail does when it is in a hurry. */
  @Test
  void aServerThatHangsUpAfterItTookTheLetterHasTakenIt() throws Exception {
    List<String> heard = new CopyOnWriteArrayList<>();
    try (ServerSocket listener = new ServerSocket(0)) {
      Thread server = new Thread(() -> hangUpAtTheEnd(listener, heard));
      server.start();

      send(new MailServer("127.0.0.1", listener.getLocalPort(), Security.NONE, null, null));

      server.join();
    }
    assertThat(heard).contains(".").last().isEqualTo("QUIT");
  }

  private static void hangUpAtTheEnd(ServerSocket listener, List<String> heard) {
    try (Socket client = listener.accept();
        BufferedReader in =
            new BufferedReader(new InputStreamReader(client.getInputStream(), US_ASCII))) {
      say(client, "220 hasty");
      boolean letter = false;
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        heard.add(line);
        if (line.equals("QUIT")) {
          return;
        }
        if (!letter || line.equals(".")) {
          say(client, line.equals("DATA") ? "354 go on" : "250 taken");
          letter = line.equals("DATA");
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void say(Socket client, String line) throws IOException {
    client.getOutputStream().write((line + "\r\n").getBytes(US_ASCII));
  }

  @Test
  void aServerThatIsNotThereIsSaid() throws IOException {
    int free;
    try (ServerSocket socket = new ServerSocket(0)) {
      free = socket.getLocalPort();
    }
    assertThatThrownBy(() -> send(server(Security.NONE, free, "secret")))
        .hasMessageContaining("can not be reached; check the name, the port");
  }

  @Test
  void inTheClearOnlyOnThisMachineAndThePasswordOfTheEnvironmentGoesFirst() {
    Map<String, String> settings =
        Map.of(
            MailServer.HOST,
            "smtp.example.org",
            MailServer.USER,
            "owner",
            MailServer.PASSWORD,
            "kept");

    assertThat(MailServer.of(settings, name -> null))
        .get()
        .returns(Security.STARTTLS, MailServer::security)
        .returns(587, MailServer::port)
        .returns("kept", MailServer::password);
    assertThat(MailServer.of(settings, Map.of(MailServer.PASSWORD_VARIABLE, "outside")::get))
        .get()
        .returns("outside", MailServer::password)
        .asString()
        .doesNotContain("outside");
    assertThatThrownBy(() -> new MailServer("smtp.example.org", 25, Security.NONE, null, null))
        .hasMessageContaining("expected starttls or tls");
  }
}

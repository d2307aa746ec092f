package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.mail.MailServer;
import org.lightledger.session.outgoing.OutgoingSamples;
import org.lightledger.session.outgoing.Studio;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;

/** One server, one mail server, one session of five stops. */
class OutgoingRoutesTest {
  @TempDir static Path folder;
  private static TestSite site;
  private static GreenMail mail;
  private static long planned;

  @BeforeAll
  static void open() {
    mail = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    mail.start();
    site =
        new TestSite(
            folder,
            new WebSettings("127.0.0.1", 0, "127.0.0.1", 0, "https://light.example.org"),
            null);
    LocalDateTime call = LocalDateTime.of(2026, 12, 15, 15, 0);
    site.ledger()
        .change(
            session -> {
              for (long id = 1; id <= 5; id++) {
                session.spots().insert(OutgoingSamples.spot(id));
              }
              session.clients().add(OutgoingSamples.adult());
              planned =
                  session
                      .sessions()
                      .add(OutgoingSamples.session(call.toLocalDate(), OutgoingSamples.MADRID));
              session
                  .sessions()
                  .describe(
                      planned,
                      OutgoingSamples.session(call.toLocalDate(), OutgoingSamples.MADRID).brief());
              session.plans().keep(planned, OutgoingSamples.plan(call, OutgoingSamples.MADRID, 5));
              session.packing().packGear(planned);
              session.settings().set(Studio.NAME, "Estudio Brezo");
              session.settings().set(Studio.EMAIL, "hello@brezo.example");
              session.settings().set(Studio.PHONE, "+34 600 000 001");
              session.settings().set(Studio.COMMON_QUESTIONS, "https://brezo.example/questions");
              session.settings().set(MailServer.HOST, "127.0.0.1");
              session.settings().set(MailServer.SECURITY, "none");
              session.settings().set(MailServer.PORT, String.valueOf(mail.getSmtp().getPort()));
            });
  }

  @AfterAll
  static void close() {
    site.close();
    mail.stop();
  }

  private static String seen(String kind) {
    String page = site.get("/sessions/" + planned + "/messages").text();
    Matcher found =
        Pattern.compile("messages/" + kind + "/copied\"[^>]*><input[^>]*value=\"([0-9a-f-]+)\"")
            .matcher(page);
    assertThat(found.find()).as(page).isTrue();
    return found.group(1);
  }

  private static List<SentMessage> sent(MessageKind kind) {
    return site.ledger().read(session -> session.messages().ofSession(planned)).stream()
        .filter(message -> message.kind() == kind)
        .toList();
  }

  /** Today, the messages and the calendar count from the same days, which are set in one place. */
  @Test
  void theDaysAreTheStudiosEverywhere() {
    String messages = "/sessions/" + planned + "/messages";
    assertThat(site.get(messages).text()).contains("due 12 Dec 2026");
    site.post("/studio/days", "questions", "21", "plan", "7", "reminder", "5", "rehearsal", "10");
    assertThat(site.get(messages).text()).contains("due 10 Dec 2026");
    assertThat(site.get("/sessions/" + planned + "/calendar.ics").text())
        .containsPattern("reminder[\\s\\S]{0,400}DTSTART;TZID=Europe/Madrid:20261210T");
    site.post("/studio/days", "questions", "21", "plan", "7", "reminder", "3", "rehearsal", "10");
    assertThat(site.get("/settings/messages").text()).contains("href=\"/studio\"");
  }

  @Test
  void theCallSheetOfFiveStopsIsOnePageAndSaysWhatThePhoneSays() throws Exception {
    TestSite.Answer page = site.get("/sessions/" + planned + "/call-sheet");
    TestSite.Answer pdf = site.get("/sessions/" + planned + "/call-sheet.pdf");

    assertThat(page.status()).isEqualTo(200);
    assertThat(pdf.header("Content-Type")).isEqualTo("application/pdf");
    try (PDDocument document = Loader.loadPDF(pdf.body())) {
      assertThat(document.getNumberOfPages()).isEqualTo(1);
      String text = new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
      assertThat(text)
          .contains(
              "Berta, Tuesday 15 December 2026",
              "15:00, Central European Standard Time (UTC+01:00)",
              "At the fountain by the north gate, 41.93000, -6.42000",
              "Upper Weir",
              "EV100",
              "Wet stones by the water",
              "Let her laugh before the first picture.",
              "Changing tent")
          .doesNotContain("Calle Mayor", "rivate", "600 100 200", "#");
      String phone =
          page.text()
              .substring(page.text().indexOf("<div class=\"cs\">"))
              .replaceAll("<[^>]+>", " ")
              .replace("&#39;", "'");
      for (String word : List.of("Reed Bank", "backlit", "SW 230°", "not known", "go to")) {
        assertThat(phone).contains(word);
        assertThat(text).contains(word);
      }
    }
  }

  @Test
  void theCalendarFileIsServedAsOne() {
    TestSite.Answer answer = site.get("/sessions/" + planned + "/calendar.ics");

    assertThat(answer.header("Content-Type")).isEqualTo("text/calendar; charset=utf-8");
    assertThat(answer.text())
        .startsWith("BEGIN:VCALENDAR\r\n")
        .contains("DTSTART;TZID=Europe/Madrid:20261215T150000\r\n", "SUMMARY:Session with Berta");
  }

  @Test
  void aMessageIsSentOnceByAClickAndNoted() throws Exception {
    String seen = seen("plan");
    String path = "/sessions/" + planned + "/messages/plan/send";

    assertThat(site.post(path, "seen", "another").status()).isEqualTo(409);
    assertThat(site.post(path, "seen", seen).status()).isEqualTo(303);
    assertThat(site.post(path, "seen", seen).status()).isEqualTo(409);

    assertThat(mail.getReceivedMessages()).hasSize(1);
    assertThat(mail.getReceivedMessages()[0].getSubject())
        .isEqualTo("Where and when: your session on Tuesday 15 December 2026");
    assertThat(sent(MessageKind.PLAN))
        .singleElement()
        .returns("berta@example.org", SentMessage::to)
        .returns(SentMessage.Way.MAIL, SentMessage::way);
    assertThat(site.get("/sessions/" + planned + "/messages").text())
        .contains("sent by mail", "went out 1 time");
  }

  @Test
  void aLinkThatIsOpenStandsInItsMessageAndOneThatIsTakenBackDoesNot() {
    String page = "/sessions/" + planned + "/messages";
    assertThat(site.get(page).text()).contains("Just reply to this message.", "make one on");
    site.post("/sessions/" + planned + "/shares", "questions", "on", "as", "link");
    Share share = site.ledger().read(s -> s.shares().of(ShareSubject.session(planned)).get(0));

    assertThat(site.get(page).text())
        .contains("yours alone: https://light.example.org/s/" + share.token())
        .contains("Would you like to see pictures of the places?")
        .doesNotContain("Just reply to this message.");

    site.post("/sessions/" + planned + "/shares/" + share.id() + "/revoke");
    assertThat(site.get(page).text())
        .contains("Just reply to this message.")
        .doesNotContain(share.token());
  }

  @Test
  void aDraftAndACopyAreNotedAsWhatTheyAre() {
    TestSite.Answer draft =
        site.post("/sessions/" + planned + "/messages/reminder/draft", "seen", seen("reminder"));
    site.post("/sessions/" + planned + "/messages/reminder/copied", "seen", seen("reminder"));

    assertThat(draft.header("Content-Type")).startsWith("message/rfc822");
    assertThat(draft.text()).contains("X-Unsent: 1\r\n", "\r\n\r\n");
    assertThat(sent(MessageKind.REMINDER))
        .extracting(SentMessage::way)
        .containsExactlyInAnyOrder(SentMessage.Way.DRAFT, SentMessage.Way.COPIED);
  }

  @Test
  void anUnknownFieldIsRefusedWithTheFieldsThereAreAndTheTextIsKeptInTheForm() {
    TestSite.Answer answer =
        site.post("/settings/messages/questions", "subject", "Hi", "body", "My own words {{nmae}}");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("{{nmae}}", "{{meeting time}}", "My own words {{nmae}}</textarea>");
    site.ledger()
        .read(
            session -> {
              assertThat(session.messages().ownTemplate(MessageKind.QUESTIONS)).isEmpty();
              return 0;
            });
  }

  @Test
  void aBadSettingIsNamedAndNothingIsKept() {
    TestSite.Answer answer =
        site.post(
            "/settings/messages",
            Studio.EMAIL,
            "a@b\r\nBcc: c@d",
            Studio.COMMON_QUESTIONS,
            "javascript:alert(1)",
            MailServer.HOST,
            "smtp.example.org",
            MailServer.SECURITY,
            "none");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("E-mail address", "Answers to common questions", "Security")
        .contains("expected starttls or tls");
    assertThat(site.ledger().<String>read(s -> s.settings().find(MailServer.HOST).orElseThrow()))
        .isEqualTo("127.0.0.1");
  }
}

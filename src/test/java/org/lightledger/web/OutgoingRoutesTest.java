package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
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
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
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

  /** What the studio's letters need, and a session that is agreed. */
  private static void agree(SharedWorld world) {
    world
        .site
        .ledger()
        .change(
            session -> {
              session.settings().set(Studio.NAME, "Estudio Brezo");
              session.settings().set(Studio.PHONE, "+34 600 000 001");
              session.settings().set(Studio.COMMON_QUESTIONS, "https://brezo.example/questions");
              session.sessions().setState(world.sessionId, Session.State.AGREED);
            });
  }

  private static Session.State state(SharedWorld world) {
    return world
        .site
        .ledger()
        .read(session -> session.sessions().find(world.sessionId).orElseThrow())
        .state();
  }

  private static boolean isPlanned(SharedWorld world) {
    return world.site.ledger().<Boolean>read(s -> s.plans().find(world.sessionId).isPresent());
  }

  private static TestSite.Answer reschedule(SharedWorld world, String... more) {
    String[] form = new String[more.length + 4];
    System.arraycopy(new String[] {"client", "1", "package", ""}, 0, form, 0, 4);
    System.arraycopy(more, 0, form, 4, more.length);
    TestSite.Answer saved = world.site.post("/sessions/" + world.sessionId, form);
    assertThat(saved.status()).as(saved.text()).isEqualTo(303);
    return saved;
  }

  @Test
  void whatWasPlannedForAnotherDayDoesNotGoOut(@TempDir Path other) {
    try (SharedWorld world = new SharedWorld(other)) {
      agree(world);
      String page = "/sessions/" + world.sessionId;
      Share share = world.share(ShareSubject.session(world.sessionId), false, false);
      assertThat(world.get(world.link(share)).text()).contains("16:00", "Mill race");
      assertThat(world.site.get(page + "/messages").text())
          .contains("We meet at 16:00 on Saturday 12 December 2026")
          .doesNotContain("plan the session first");
      long revision = revision(world);

      TestSite.Answer moved =
          reschedule(world, "date", "2027-03-20", "anchor", "sunset", "minutes", "0");

      assertThat(isPlanned(world)).isFalse();
      assertThat(state(world)).isEqualTo(Session.State.BOOKED);
      assertThat(moved.header("Location")).isEqualTo(page + "?saved=1&plan=gone");
      assertThat(world.site.get(moved.header("Location")).text())
          .contains("The plan was for other hours, so it is no longer kept");
      assertThat(world.site.get(page).text())
          .contains("The plan that went out on Sat 12 Dec 2026, 16:00 no longer holds");
      assertThat(world.site.get(page + "/messages").text())
          .contains("plan the session first", "Saturday 20 March 2027")
          .doesNotContain("We meet at 16:00");
      assertThat(world.get(world.link(share)).text())
          .contains("Saturday 20 March 2027")
          .doesNotContain("16:00", "Mill race");
      assertThat(revision(world)).isGreaterThan(revision);
      assertThat(world.site.get(page + "/calendar.ics").text())
          .contains("Not planned yet.", "20270320")
          .doesNotContain("20261212T160000");
    }
  }

  /** A reminder of other hours than those of the kept plan is none. */
  @Test
  void aReminderThatIsOlderThanThePlanGoesOutAgain(@TempDir Path other) {
    try (SharedWorld world = new SharedWorld(other)) {
      agree(world);
      String page = "/sessions/" + world.sessionId;
      world.site.clock().advance(Duration.between(world.site.clock().instant(), SharedWorld.CALL));
      remind(world, SharedWorld.CALL.minusSeconds(2 * 86_400));
      assertThat(world.site.get(page).text()).contains("Send the reminder");
      remind(world, SharedWorld.CALL.minusSeconds(3600));
      assertThat(world.site.get(page).text()).doesNotContain("Send the reminder");
    }
  }

  private static void remind(SharedWorld world, Instant at) {
    world
        .site
        .ledger()
        .write(
            session ->
                session
                    .messages()
                    .sent(
                        world.sessionId,
                        new SentMessage(
                            MessageKind.REMINDER, SentMessage.Way.COPIED, "", "Soon", "Soon", at)));
  }

  private static long revision(SharedWorld world) {
    return world
        .site
        .ledger()
        .read(session -> session.sessions().find(world.sessionId).orElseThrow())
        .revision();
  }

  @Test
  void aPlanGoesWithTheHoursOrTheTermsItWasMadeForAndWithNothingElse(@TempDir Path other) {
    try (SharedWorld world = new SharedWorld(other)) {
      agree(world);
      String day = "2026-12-12";
      assertThat(
              reschedule(world, "date", day, "anchor", "sunset", "minutes", "0").header("Location"))
          .endsWith("?saved=1");
      assertThat(isPlanned(world)).isTrue();
      assertThat(state(world)).isEqualTo(Session.State.AGREED);

      assertThat(terms(world, new Terms("More", 4, 2, 5, 240)).header("Location"))
          .endsWith("?saved=1");
      assertThat(isPlanned(world)).isTrue();
      assertThat(state(world)).isEqualTo(Session.State.AGREED);

      TestSite.Answer another =
          world.site.post(
              "/sessions/" + world.sessionId,
              "client",
              "2",
              "package",
              "",
              "date",
              day,
              "anchor",
              "sunset",
              "minutes",
              "0");
      assertThat(another.status()).as("it holds what its client said").isEqualTo(422);
      assertThat(isPlanned(world)).isTrue();
      assertThat(state(world)).isEqualTo(Session.State.AGREED);

      assertThat(terms(world, new Terms("Two outfits", 2, 2, 5, 240)).header("Location"))
          .endsWith("?saved=1&plan=gone");
      assertThat(isPlanned(world)).isFalse();
    }
  }

  /** Books a package for the session. */
  private static TestSite.Answer terms(SharedWorld world, Terms terms) {
    long id = world.site.ledger().write(session -> session.sessions().addPackage(terms));
    TestSite.Answer saved =
        world.site.post(
            "/sessions/" + world.sessionId,
            "client",
            "1",
            "package",
            String.valueOf(id),
            "date",
            "2026-12-12",
            "anchor",
            "sunset",
            "minutes",
            "0");
    assertThat(saved.status()).as(saved.text()).isEqualTo(303);
    return saved;
  }
}

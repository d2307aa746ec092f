package org.lightledger.session.outgoing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.lightledger.session.outgoing.OutgoingSamples.MADRID;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.session.Anchor;
import org.lightledger.session.Client;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.MessageKind;
import org.lightledger.session.Session;
import org.lightledger.spot.Cautions;

class ComposerTest {
  private static final LocalDateTime CALL = LocalDateTime.of(2026, 12, 15, 15, 0);

  private static Letter standard(MessageKind kind, Dossier dossier) {
    return Composer.compose(
        StandardTemplates.of(kind), dossier, OutgoingSamples.studio(), ClientLinks.NONE);
  }

  @Test
  void thePlanSaysWhereAndWhenFirstAndThenTheStopsInOrder() {
    Letter letter =
        standard(
            MessageKind.PLAN, OutgoingSamples.dossier(OutgoingSamples.adult(), CALL, MADRID, 2));

    assertThat(letter.ready()).isTrue();
    assertThat(letter.toEmail()).isEqualTo("berta@example.org");
    assertThat(letter.subject())
        .isEqualTo("Where and when: your session on Tuesday 15 December 2026");
    assertThat(letter.body())
        .startsWith(
            """
            Hello Berta,

            We meet at 15:00 on Tuesday 15 December 2026.
            Where: At the fountain by the north gate
            41.93000, -6.42000 (on a phone: geo:41.93000,-6.42000)

            From there we go together:

            1. 15:05 to 15:30: Reed Bank, outfit 1
            2. 15:40 to 16:05: Poplar Avenue, outfit 2 (about 7 minutes by car)
               Mind: There are railway tracks nearby. We stay off them and well away from them.
               Wet stones by the water: walk slowly.
               Permit of the town needed.
               Local rules and signs come first.

            We end at about 16:15. All times are Central European Standard Time (UTC+01:00).

            There is room for up to 2 outfits in your session. Please bring:

            - the outfits on hangers, ironed
            """)
        .contains("Please do not look into the sun, and keep to paths and local rules");
  }

  /** Of four outfits that are booked a plan may wear fewer, and one that is changed counts too. */
  @Test
  void aPlanTellsHowManyOutfitsItWearsAndWithoutOneItIsWhatIsBooked() {
    Template limit = new Template(MessageKind.QUESTIONS, "x", "{{outfit limit}}");
    int[][] stopsAndOutfits = {{0, 4}, {1, 1}, {2, 2}, {3, 4}};

    for (int[] row : stopsAndOutfits) {
      Dossier dossier = OutgoingSamples.dossier(OutgoingSamples.adult(), CALL, MADRID, row[0]);
      assertThat(
              Composer.compose(limit, dossier, OutgoingSamples.studio(), ClientLinks.NONE).body())
          .isEqualTo(row[1] + (row[1] == 1 ? " outfit" : " outfits"));
    }
  }

  @ParameterizedTest
  @EnumSource(
      value = MessageKind.class,
      names = {"PLAN", "REMINDER"})
  void whoeverComesIsToldToTakeCare(MessageKind kind) {
    assertThat(standard(kind, OutgoingSamples.dossier()).body()).contains(Cautions.FOR_EVERYBODY);

    Template own = new Template(kind, "Hello", "We meet at {{meeting time}}.");
    Letter letter =
        Composer.compose(
            own, OutgoingSamples.dossier(), OutgoingSamples.studio(), ClientLinks.NONE);
    assertThat(letter.ready()).isTrue();
    assertThat(letter.body()).isEqualTo("We meet at 15:00.");
  }

  @ParameterizedTest
  @EnumSource(MessageKind.class)
  void aGuardianIsToldWhoseSessionAndWhoseOutfits(MessageKind kind) {
    Dossier dossier = OutgoingSamples.dossier(OutgoingSamples.minor(), CALL, MADRID, 2);

    assertThat(standard(kind, dossier).body())
        .contains("Nilo's session")
        .doesNotContain("your outfits", "your session", "suit you, please", "you would like to");
  }

  /** A session that begins late in the evening may have its first stop after midnight. */
  @Test
  void theDayIsThatOfTheMeeting() {
    KeptPlan plan = OutgoingSamples.plan(LocalDateTime.of(2026, 12, 13, 0, 10), MADRID, 1);
    Dossier late =
        OutgoingSamples.fixed(
            LocalDate.of(2026, 12, 12),
            MADRID,
            new Anchor.EndsAt(LocalTime.of(1, 30)),
            plan,
            Map.of(1L, OutgoingSamples.spot(1)));

    Letter letter = standard(MessageKind.PLAN, late);

    assertThat(letter.subject()).endsWith("on Sunday 13 December 2026");
    assertThat(letter.body()).contains("We meet at 00:10 on Sunday 13 December 2026.");
  }

  @ParameterizedTest
  @EnumSource(MessageKind.class)
  void nothingPrivateGoesOut(MessageKind kind) {
    Client client = OutgoingSamples.minor();
    Letter letter = standard(kind, OutgoingSamples.dossier(client, CALL, MADRID, 5));

    assertThat(letter.ready()).isTrue();
    assertThat(letter.toName()).isEqualTo("Marta Saavedra");
    assertThat(letter.toEmail()).isEqualTo("marta@example.org");
    assertThat(letter.subject() + letter.body())
        .contains("Nilo's session")
        .doesNotContain("Quiroga", "Plaza Vieja", "Private", "nilo@", "600 100")
        .doesNotContain("41.9306", "-6.4241");
  }

  @Test
  void aMinorNotedWithTheFullNameIsCalledByTheFirstWordOfIt() {
    Client minor = OutgoingSamples.minor();
    Client full =
        new Client(1, minor.name(), minor.name(), true, minor.contact(), minor.guardian(), "", "");

    assertThat(standard(MessageKind.PLAN, OutgoingSamples.dossier(full, CALL, MADRID, 1)).body())
        .doesNotContain("Quiroga");
  }

  @Test
  void theFullNameOfAMinorInTheOwnersOwnWordsKeepsAMessageBack() {
    Template told = new Template(MessageKind.PLAN, "About nilo quiroga  saavedra", "Hello");

    Letter letter =
        Composer.compose(
            told,
            OutgoingSamples.dossier(OutgoingSamples.minor(), CALL, MADRID, 1),
            OutgoingSamples.studio(),
            ClientLinks.NONE);

    assertThat(letter.missing()).singleElement().asString().contains("full name of a minor");
  }

  @Test
  void theHomeAddressInTheOwnersOwnWordsKeepsAMessageBack() {
    Template told = new Template(MessageKind.PLAN, "Hello", "We pick you up at calle mayor 1.");

    assertThat(
            Composer.compose(
                    told, OutgoingSamples.dossier(), OutgoingSamples.studio(), ClientLinks.NONE)
                .missing())
        .singleElement()
        .asString()
        .contains("home address");
  }

  @Test
  void withoutAPlanTheRestIsSaidAndTheMessageIsKeptBack() {
    Letter letter =
        standard(
            MessageKind.PLAN, OutgoingSamples.dossier(OutgoingSamples.adult(), CALL, MADRID, 0));

    assertThat(letter.body()).contains("We end at about not decided yet.");
    assertThat(letter.missing())
        .containsExactlyInAnyOrder(
            "{{meeting time}} has no value: plan the session first",
            "{{meeting place}} has no value: plan the session, and say in the plan where all meet",
            "{{meeting point}} has no value: plan the session first",
            "{{stops}} has no value: plan the session first");
    assertThat(
            standard(
                    MessageKind.QUESTIONS,
                    OutgoingSamples.dossier(OutgoingSamples.adult(), CALL, MADRID, 0))
                .ready())
        .isTrue();
  }

  @ParameterizedTest
  @EnumSource(MessageKind.class)
  void nothingInvitesToASessionThatIsCancelled(MessageKind kind) {
    Dossier cancelled = OutgoingSamples.in(Session.State.CANCELLED, OutgoingSamples.dossier());

    Letter letter = standard(kind, cancelled);

    assertThat(letter.missing())
        .singleElement()
        .asString()
        .startsWith("the session is cancelled: tell Berta so in your own words");
  }

  @Test
  void anOpenLinkStandsInTheMessageAndWithoutOneTheClientReplies() {
    Dossier dossier = OutgoingSamples.dossier(OutgoingSamples.adult(), CALL, MADRID, 1);
    ClientLinks links =
        new ClientLinks("https://light.example/s/form", "https://light.example/s/plan");

    assertThat(
            Composer.compose(
                    StandardTemplates.of(MessageKind.QUESTIONS),
                    dossier,
                    OutgoingSamples.studio(),
                    links)
                .body())
        .contains("answer on this page, which is yours alone: https://light.example/s/form\n\n")
        .doesNotContain("reply to this message");
    assertThat(
            Composer.compose(
                    StandardTemplates.of(MessageKind.PLAN),
                    dossier,
                    OutgoingSamples.studio(),
                    links)
                .body())
        .contains("on a page that is yours alone: https://light.example/s/plan\n\n");
    assertThat(standard(MessageKind.QUESTIONS, dossier).body())
        .contains("\n\nJust reply to this message.\n\n")
        .doesNotContain("http://", "/s/");
    assertThat(standard(MessageKind.PLAN, dossier).body()).doesNotContain("/s/");
  }

  @Test
  void aLineNeverHasAnEmptyHole() {
    Template all = new Template(MessageKind.PLAN, "x", Field.list().replace(", ", "\n"));

    Letter letter =
        Composer.compose(
            all,
            OutgoingSamples.dossier(OutgoingSamples.adult(), CALL, MADRID, 0),
            Studio.of(Map.of(Studio.BRING, " ")),
            ClientLinks.NONE);

    assertThat(letter.body().lines()).doesNotContain("").contains("Not decided yet");
    assertThat(letter.ready()).isFalse();
  }

  @Test
  void aLineBreakInAValueIsNoNewHeaderLine() {
    Client client = OutgoingSamples.adult();
    Template template = new Template(MessageKind.PLAN, "At {{meeting place}}", "x");
    Dossier dossier = OutgoingSamples.dossier(client, CALL, MADRID, 1);
    var plan = dossier.plan();
    var broken =
        new KeptPlan(
            plan.madeAt(),
            plan.sky(),
            false,
            plan.callTime(),
            plan.end(),
            new KeptPlan.Meeting("the gate\r\nBcc: all@example.org\u0085\u2028x\ud800", null),
            plan.stops());

    Letter letter =
        Composer.compose(
            template,
            new Dossier(
                dossier.session(),
                client,
                broken,
                dossier.spots(),
                Map.of(),
                Map.of(),
                dossier.questions(),
                dossier.answers(),
                dossier.packing()),
            OutgoingSamples.studio(),
            ClientLinks.NONE);

    assertThat(letter.subject()).isEqualTo("At the gate Bcc: all@example.org x");
  }

  @Test
  void aChangeOfTheClocksInTheDaysBeforeIsSaid() {
    ZoneId newYork = ZoneId.of("America/New_York");
    Template zone = new Template(MessageKind.PLAN, "x", "{{time zone}}");
    Dossier after =
        OutgoingSamples.dossier(
            OutgoingSamples.adult(), LocalDateTime.of(2026, 3, 9, 17, 0), newYork, 1);
    Dossier later =
        OutgoingSamples.dossier(
            OutgoingSamples.adult(), LocalDateTime.of(2026, 3, 20, 17, 0), newYork, 1);

    assertThat(Composer.compose(zone, after, OutgoingSamples.studio(), ClientLinks.NONE).body())
        .isEqualTo(
            "Eastern Daylight Time (UTC-04:00); the clocks there change on Sunday 8 March 2026,"
                + " and these are the times after that");
    assertThat(Composer.compose(zone, later, OutgoingSamples.studio(), ClientLinks.NONE).body())
        .isEqualTo("Eastern Daylight Time (UTC-04:00)");
  }
}

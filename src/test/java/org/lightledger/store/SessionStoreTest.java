package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.lightledger.light.LightClass;
import org.lightledger.session.Anchor;
import org.lightledger.session.Answer;
import org.lightledger.session.Bookable;
import org.lightledger.session.Candidate;
import org.lightledger.session.Client;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.MessageKind;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;
import org.lightledger.session.PackItem;
import org.lightledger.session.SentMessage;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.share.ShareSubject;
import org.lightledger.spot.Trait;

class SessionStoreTest extends LedgerTestBase {
  private long chapel;
  private long bridge;
  private long client;
  private long id;

  @BeforeEach
  void fill() {
    chapel = insertSpot("Chapel", CHAPEL);
    bridge = insertSpot("Bridge", CHAPEL);
    client = ledger.write(session -> session.clients().add(SessionSamples.adult()));
    id = ledger.write(session -> session.sessions().add(SessionSamples.session(client)));
  }

  @Test
  void clientsComeBackAsTheyWentIn() {
    long minor = ledger.write(session -> session.clients().add(SessionSamples.minor()));
    Client nilo = ledger.<Client>read(session -> session.clients().find(minor).orElseThrow());
    assertThat(nilo)
        .usingRecursiveComparison()
        .ignoringFields("id")
        .isEqualTo(SessionSamples.minor());
    Client grown =
        new Client(minor, nilo.name(), "Nil", false, nilo.contact(), null, "Plaza 2", nilo.notes());
    ledger.change(session -> session.clients().update(grown));
    List<Client> all = ledger.read(session -> session.clients().all());
    assertThat(all).extracting(Client::calledName).containsExactly("Berta", "Nil");
    assertThat(all.get(1)).isEqualTo(grown);
    assertMissing(
        "client",
        session ->
            session.clients().update(new Client(9, "A", "A", false, nilo.contact(), null, "", "")));
  }

  @Test
  void sessionsComeBackAsTheyWentInEarliestFirst() {
    Session first = find();
    assertThat(first)
        .usingRecursiveComparison()
        .ignoringFields("id")
        .isEqualTo(SessionSamples.session(client));
    Session earlier =
        new Session(
            0,
            "other",
            3,
            client,
            LocalDate.of(2026, 5, 2),
            first.zone(),
            new Anchor.StartsAt(LocalTime.of(16, 30)),
            new Terms("Long walk", 6, 1, 8, 300),
            Session.State.DONE,
            new Session.Brief("a", "b", "c", "d", "e", "f"));
    long second = ledger.write(session -> session.sessions().add(earlier));
    List<Session> all = ledger.read(session -> session.sessions().all());
    assertThat(all).extracting(Session::id).containsExactly(second, id);
    assertThat(all.get(0)).usingRecursiveComparison().ignoringFields("id").isEqualTo(earlier);
    assertThat(ledger.<List<Session>>read(session -> session.sessions().ofClient(client)))
        .isEqualTo(all);
    assertThat(ledger.<List<Session>>read(session -> session.sessions().ofClient(99))).isEmpty();
  }

  @Test
  void calendarsLearnOfWhatTheyShowAndOfNothingElse() {
    ledger.change(session -> session.sessions().describe(id, Session.Brief.EMPTY));
    ledger.change(session -> session.sessions().setState(id, Session.State.BOOKED));
    assertThat(find().revision()).isZero();
    ledger.change(session -> session.sessions().setState(id, Session.State.AGREED));
    assertThat(find()).returns(1, Session::revision).returns(Session.State.AGREED, Session::state);
    Session was = find();
    ledger.change(
        session ->
            session
                .sessions()
                .reschedule(
                    new Session(
                        id,
                        "ignored",
                        77,
                        client,
                        was.date().plusDays(1),
                        was.zone(),
                        new Anchor.EndsAt(LocalTime.of(19, 30)),
                        was.terms(),
                        Session.State.DONE,
                        was.brief())));
    assertThat(find())
        .returns(2, Session::revision)
        .returns(was.uid(), Session::uid)
        .returns(Session.State.AGREED, Session::state)
        .returns(LocalDate.of(2026, 7, 1), Session::date)
        .returns(new Anchor.EndsAt(LocalTime.of(19, 30)), Session::anchor);
    ledger.change(session -> session.plans().keep(id, SessionSamples.plan(chapel)));
    assertThat(find().revision()).isEqualTo(3);
  }

  private void give(long other) {
    Session was = find();
    ledger.change(
        session ->
            session
                .sessions()
                .reschedule(
                    new Session(
                        id,
                        was.uid(),
                        0,
                        other,
                        was.date(),
                        was.zone(),
                        was.anchor(),
                        was.terms(),
                        was.state(),
                        was.brief())));
  }

  @Test
  void aSessionGoesToAnotherClientWhileNothingOfTheFirstIsInIt() {
    long other = ledger.write(session -> session.clients().add(SessionSamples.minor()));
    give(other);
    assertThat(find()).returns(other, Session::clientId);
    give(client);
    assertThat(find()).returns(client, Session::clientId);
    Instant now = Instant.parse("2026-06-30T10:00:00Z");
    Map<String, Consumer<LedgerSession>> ties =
        Map.of(
            "1 share",
            session -> SessionSamples.share(session, ShareSubject.session(id)),
            "1 answer",
            session ->
                session.questionnaire().answer(id, new Answer(1, "?", "x", Set.of(), now, false)),
            "1 sent message",
            session ->
                session
                    .messages()
                    .sent(
                        id,
                        new SentMessage(
                            MessageKind.PLAN, SentMessage.Way.COPIED, "", "s", "b", now)));
    ties.forEach(
        (found, tie) -> {
          sql("DELETE FROM shares");
          sql("DELETE FROM answers");
          sql("DELETE FROM sent_messages");
          ledger.change(tie::accept);
          assertThatThrownBy(() -> give(other))
              .isInstanceOf(IllegalArgumentException.class)
              .hasMessageContaining("found " + found + " ")
              .hasMessageContaining("book a new session for the other");
          give(client);
        });
    assertThat(find()).returns(client, Session::clientId);
  }

  @Test
  void aPackageThatChangesLeavesBookedTermsAlone() {
    Bookable usual = ledger.<List<Bookable>>read(session -> session.sessions().packages()).get(0);
    assertThat(usual.terms()).isEqualTo(Terms.USUAL);
    Terms shorter = new Terms("Outdoor portraits", 2, 1, 3, 90);
    ledger.change(session -> session.sessions().updatePackage(new Bookable(usual.id(), shorter)));
    assertThat(find().terms()).isEqualTo(Terms.USUAL);
    long walk =
        ledger.write(session -> session.sessions().addPackage(new Terms("Walk", 1, 1, 1, 20)));
    assertThatThrownBy(() -> ledger.change(session -> session.sessions().addPackage(shorter)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("already has a row with this packages.name");
    ledger.change(session -> session.sessions().removePackage(usual.id()));
    assertThat(ledger.<List<Bookable>>read(session -> session.sessions().packages()))
        .containsExactly(new Bookable(walk, new Terms("Walk", 1, 1, 1, 20)));
    assertMissing("package", session -> session.sessions().removePackage(9));
    assertMissing("package", session -> session.sessions().updatePackage(new Bookable(9, shorter)));
  }

  @Test
  void candidatesArePutOrderedAndTakenOff() {
    Candidate free = new Candidate(chapel, Candidate.Choice.FREE, Set.of(), null, null);
    Candidate locked =
        new Candidate(
            bridge,
            Candidate.Choice.LOCKED,
            Set.of(LightClass.BACKLIT, LightClass.OPEN_SHADE),
            45,
            LocalTime.of(19, 5));
    put(free);
    put(locked);
    assertThat(candidates()).containsExactly(free, locked);
    Candidate out =
        new Candidate(chapel, Candidate.Choice.EXCLUDED, Set.of(LightClass.SIDE), 10, null);
    put(out);
    assertThat(candidates()).containsExactly(out, locked);
    ledger.change(session -> session.candidates().reorder(id, List.of(bridge, chapel)));
    assertThat(candidates()).containsExactly(locked, out);
    for (List<Long> wrong :
        List.of(List.of(chapel), List.of(chapel, 9L), List.of(chapel, chapel))) {
      assertThatThrownBy(() -> ledger.change(session -> session.candidates().reorder(id, wrong)))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("found " + wrong);
    }
    ledger.change(session -> session.candidates().remove(id, bridge));
    assertThat(candidates()).containsExactly(out);
    assertMissing("candidate of session " + id, session -> session.candidates().remove(id, 9));
    assertThatThrownBy(() -> put(new Candidate(99, Candidate.Choice.FREE, Set.of(), null, null)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("names another row that is not in the ledger");
  }

  @Test
  void aPlanIsKeptInPlaceOfTheOneBefore() {
    assertThat(ledger.<Boolean>read(session -> session.plans().find(id).isEmpty())).isTrue();
    ledger.change(session -> session.plans().keep(id, SessionSamples.plan(chapel)));
    ledger.change(session -> session.plans().keep(id, SessionSamples.plan(bridge, chapel)));
    Optional<KeptPlan> kept = ledger.read(session -> session.plans().find(id));
    assertThat(kept).contains(SessionSamples.plan(bridge, chapel));
    assertThat(number("SELECT count(*) FROM plan_stops")).isEqualTo(2);
    ledger.change(session -> session.plans().forget(id));
    assertThat(number("SELECT count(*) FROM plan_stops")).isZero();
    assertMissing("session", session -> session.sessions().setState(9, Session.State.DONE));
    assertMissing("session", session -> session.sessions().describe(9, Session.Brief.EMPTY));
  }

  @Test
  void aSpotOfASessionIsNotDeleted() {
    long well = insertSpot("Well", CHAPEL);
    ledger.change(session -> session.plans().keep(id, SessionSamples.plan(bridge, chapel)));
    put(new Candidate(well, Candidate.Choice.EXCLUDED, Set.of(), null, null));
    for (long spot : new long[] {chapel, bridge, well}) {
      assertThatThrownBy(() -> ledger.change(session -> session.spots().delete(spot)))
          .isInstanceOf(LedgerException.class)
          .hasMessage(
              "spot "
                  + spot
                  + " belongs to the sessions of [2026-06-30 (session 1)]; take it off their"
                  + " candidates and plans first");
    }
    ledger.change(session -> session.candidates().remove(id, well));
    ledger.change(session -> session.spots().delete(well));
    assertThat(number("SELECT count(*) FROM spots")).isEqualTo(2);
  }

  @Test
  void drivesAndHoursAreKeptForEachWayAndSpot() {
    OwnDrive there = new OwnDrive(chapel, bridge, 12);
    OwnDrive back = new OwnDrive(bridge, chapel, 15);
    OpenHours day = new OpenHours(LocalTime.of(8, 0), LocalTime.of(20, 30));
    ledger.change(
        session -> {
          session.drives().put(new OwnDrive(chapel, bridge, 99));
          session.drives().put(there);
          session.drives().put(back);
          session.drives().setHours(bridge, new OpenHours(LocalTime.NOON, LocalTime.of(13, 0)));
          session.drives().setHours(bridge, day);
        });
    ledger.read(
        session -> {
          assertThat(session.drives().all()).containsExactly(there, back);
          assertThat(session.drives().of(bridge)).containsExactly(there, back);
          assertThat(session.drives().hours(bridge)).contains(day);
          assertThat(session.drives().hours(chapel)).isEmpty();
          assertThat(session.drives().hours()).containsOnly(Map.entry(bridge, day));
          return true;
        });
    ledger.change(
        session -> {
          session.drives().remove(chapel, bridge);
          session.drives().removeHours(bridge);
        });
    ledger.read(
        session -> {
          assertThat(session.drives().of(chapel)).containsExactly(back);
          assertThat(session.drives().hours()).isEmpty();
          return true;
        });
  }

  @Test
  void answersOutliveTheirQuestion() {
    List<ClientQuestion> usual = questions();
    assertThat(usual).hasSize(5).first().returns(ClientQuestion.Kind.PLACES, ClientQuestion::kind);
    ClientQuestion first = usual.get(0);
    Answer woods = answer(first, "", Set.of(Trait.WOODS, Trait.WATER));
    Answer dog = answer(usual.get(2), "A dog", Set.of());
    ledger.change(
        session -> {
          session.questionnaire().answer(id, dog);
          session.questionnaire().answer(id, answer(first, "x", Set.of()));
          session.questionnaire().answer(id, woods);
        });
    assertThat(answers()).containsExactly(woods, dog);
    ledger.change(session -> session.questionnaire().remove(first.id()));
    assertThat(answers()).containsExactly(dog, woods);
    ledger.change(session -> session.questionnaire().removeAnswer(id, first.id()));
    assertThat(answers()).containsExactly(dog);
    assertMissing("client question", session -> session.questionnaire().remove(9));
    assertMissing(
        "client question",
        session ->
            session
                .questionnaire()
                .update(new ClientQuestion(9, "What?", ClientQuestion.Kind.WORDS)));
  }

  @Test
  void questionsAreAddedChangedAndOrdered() {
    long shoes =
        ledger.write(
            session ->
                session
                    .questionnaire()
                    .add(new ClientQuestion(0, "Which shoes?", ClientQuestion.Kind.WORDS)));
    ClientQuestion changed = new ClientQuestion(shoes, "Shoes?", ClientQuestion.Kind.WORDS);
    ledger.change(session -> session.questionnaire().update(changed));
    assertThat(questions()).last().isEqualTo(changed);
    ledger.change(session -> session.questionnaire().reorder(List.of(shoes, 5L, 4L, 3L, 2L, 1L)));
    assertThat(questions())
        .extracting(ClientQuestion::id)
        .containsExactly(shoes, 5L, 4L, 3L, 2L, 1L);
    assertThatThrownBy(() -> ledger.change(session -> session.questionnaire().reorder(List.of(1L))))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("expected the questions");
  }

  @Test
  void thingsToPackAreCopiedOnceTickedAndTakenOff() {
    long kite = ledger.write(session -> session.packing().addGear("Kite"));
    ledger.change(session -> session.packing().removeGear(1));
    ledger.change(session -> session.packing().packGear(id));
    long rope = ledger.write(session -> session.packing().add(id, "Rope"));
    ledger.change(session -> session.packing().packGear(id));
    assertThat(items())
        .extracting(PackItem::words)
        .hasSize(8)
        .startsWith("Cards in the cameras, empty, and spares")
        .endsWith("Kite", "Rope");
    ledger.change(session -> session.packing().tick(id, rope, true, Samples.NOW));
    assertThat(items()).last().isEqualTo(new PackItem(rope, "Rope", Samples.NOW));
    ledger.change(session -> session.packing().tick(id, rope, false, Samples.NOW));
    assertThat(items()).last().isEqualTo(new PackItem(rope, "Rope", null));
    ledger.change(session -> session.packing().removeGear(kite));
    ledger.change(session -> session.packing().remove(id, rope));
    assertThat(items()).extracting(PackItem::words).last().isEqualTo("Kite");
    assertMissing("thing to pack", session -> session.packing().tick(99, 1, false, Samples.NOW));
    assertMissing("thing to pack", session -> session.packing().remove(99, 1));
    assertMissing("piece of gear", session -> session.packing().removeGear(99));
  }

  private void put(Candidate candidate) {
    ledger.change(session -> session.candidates().put(id, candidate));
  }

  private static Answer answer(ClientQuestion question, String words, Set<Trait> places) {
    return new Answer(question.id(), question.words(), words, places, Instant.EPOCH, false);
  }

  private Session find() {
    return ledger.<Session>read(session -> session.sessions().find(id).orElseThrow());
  }

  private List<Candidate> candidates() {
    return ledger.read(session -> session.candidates().of(id));
  }

  private List<ClientQuestion> questions() {
    return ledger.read(session -> session.questionnaire().questions());
  }

  private List<Answer> answers() {
    return ledger.read(session -> session.questionnaire().answers(id));
  }

  private List<PackItem> items() {
    return ledger.read(session -> session.packing().items(id));
  }

  private void assertMissing(String what, Consumer<LedgerSession> work) {
    assertThatThrownBy(() -> ledger.change(work))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("found no " + what + " with the number ");
  }
}

package org.lightledger.store;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.lightledger.session.Answer;
import org.lightledger.session.Client;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.Agenda;
import org.lightledger.share.Returned;
import org.lightledger.share.ShareSubject;

class ClientRecordsTest extends LedgerTestBase {
  private static final Instant NOON = Instant.parse("2026-06-30T10:00:00Z");
  private static final byte[] PICTURE =
      concat(new byte[] {(byte) 0xff, (byte) 0xd8, (byte) 0xff}, "Saavedra-picture");

  private static byte[] concat(byte[] start, String rest) {
    byte[] end = rest.getBytes(StandardCharsets.UTF_8);
    byte[] all = Arrays.copyOf(start, start.length + end.length);
    System.arraycopy(end, 0, all, start.length, end.length);
    return all;
  }

  private long client;
  private long other;

  private void fill() {
    long spot = insertSpot("Chapel", CHAPEL);
    client = ledger.write(session -> session.clients().add(SessionSamples.minor()));
    other = ledger.write(session -> session.clients().add(SessionSamples.adult()));
    ledger.change(
        session -> {
          for (long one : new long[] {client, other}) {
            long id = session.sessions().add(SessionSamples.session(one));
            String name = one == client ? "Saavedra" : "Vidal";
            session.sessions().describe(id, new Session.Brief(name, name, name, name, name, name));
            session.plans().keep(id, SessionSamples.plan(spot));
            session.questionnaire().answer(id, new Answer(1, "Where?", name, Set.of(), NOON, true));
            session.packing().add(id, "Gift for " + name);
            session.calendar().give(id, agenda(id, "Session with " + name));
            session
                .messages()
                .sent(
                    id,
                    new SentMessage(
                        MessageKind.PLAN, SentMessage.Way.COPIED, "", name, name, NOON));
            long share = SessionSamples.share(session, ShareSubject.session(id));
            if (one == client) {
              session.replies().addOutfit(share, PICTURE, NOON);
            }
            session.replies().keep(share, List.of(new Returned.Pick(spot, true, name)), name, NOON);
          }
        });
  }

  private static Agenda agenda(long id, String title) {
    return new Agenda(
        ZoneOffset.UTC,
        0,
        false,
        List.of(
            new Agenda.Entry(
                id + "-session",
                title,
                "",
                null,
                new Agenda.Span(NOON, NOON.plusSeconds(60)),
                null,
                true)));
  }

  private Map<String, Long> counts() {
    Map<String, Long> counts = new HashMap<>();
    for (String table : ClientRecords.tableNames()) {
      counts.put(table, number("SELECT count(*) FROM " + table));
    }
    return counts;
  }

  @Test
  void everyTableThatLeadsToAClientIsHandedOver() {
    List<String> tables =
        ledger.read(
            session ->
                session
                    .call("SELECT name FROM sqlite_master WHERE type = 'table'")
                    .list(Row::text));
    Set<String> leading = new TreeSet<>(Set.of("clients"));
    for (boolean grown = true; grown; ) {
      grown = false;
      for (String table : tables) {
        List<String> parents =
            ledger.read(
                session ->
                    session
                        .call("SELECT \"table\" FROM pragma_foreign_key_list('" + table + "')")
                        .list(Row::text));
        grown |= parents.stream().anyMatch(leading::contains) && leading.add(table);
      }
    }
    assertThat(ClientRecords.tableNames()).containsExactlyInAnyOrderElementsOf(leading);
  }

  @Test
  void whatIsHandedOverIsTheClientsAndNobodyElses() {
    fill();
    Map<String, ?> all = ledger.read(session -> session.clientRecords().all(client));

    assertThat(all.toString())
        .contains(
            "Nilo Quiroga Saavedra",
            "marta@example.org",
            "Gift for Saavedra",
            "first_seen_at",
            " at=2026-06-30T10:00:00Z")
        .doesNotContain("Vidal", "Berta", "token", "secret");
    Map<String, byte[]> pictures = ledger.read(session -> session.clientRecords().pictures(client));
    assertThat(pictures).hasSize(2);
    assertThat(pictures.get("outfits/2.jpg")).isEqualTo(PICTURE);
  }

  @Test
  void erasingTakesAllOfOneClientAndNothingOfAnother() {
    fill();
    Map<String, Long> before = counts();
    ledger.change(session -> session.clientRecords().erase(client));

    before.forEach(
        (table, count) -> {
          assertThat(counts()).as(table).containsEntry(table, count / 2);
        });
    Map<String, ?> rest = ledger.read(session -> session.clientRecords().all(other));
    assertThat(rest.toString()).contains("Vidal");
    assertThatThrownBy(() -> ledger.change(session -> session.clientRecords().erase(client)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("client");
  }

  @Test
  void deletingASessionTakesAllOfItAndNothingOfAnother() {
    fill();
    Map<String, Long> before = counts();
    long id = ledger.read(session -> session.sessions().ofClient(client)).get(0).id();
    List<String> held = ledger.read(session -> session.sessionRecords().held(id));
    assertThat(held)
        .containsExactly("1 plan", "1 thing to pack", "1 share", "1 answer", "1 sent message");
    ledger.change(session -> session.sessionRecords().delete(id));

    before.forEach(
        (table, count) ->
            assertThat(counts())
                .as(table)
                .containsEntry(table, table.equals("clients") ? count : count / 2));
    assertThat(ledger.read(session -> session.clientRecords().all(other)).toString())
        .contains("Vidal");
    assertThatThrownBy(() -> ledger.change(session -> session.sessionRecords().delete(id)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("session");
  }

  @Test
  void noByteOfTheLedgersFilesNamesAnErasedClient() throws IOException {
    fill();
    assertThat(traces()).as("before").isNotEmpty();
    ledger.change(session -> session.clientRecords().erase(client));
    ledger.read(LedgerSession::stockVersion);
    ledger.scrub();

    assertThat(traces()).isEmpty();
    assertThat(number("SELECT count(*) FROM clients")).isEqualTo(1);
    ledger.close();
    assertThat(LedgerCheck.run(folder)).isEmpty();
    ledger = Samples.open(folder);
    assertThat(traces()).isEmpty();
  }

  /** The files of the ledger's folder in which a name of the client stands. */
  private List<String> traces() throws IOException {
    List<String> found = new ArrayList<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        String bytes = new String(Files.readAllBytes(file), ISO_8859_1);
        for (String name : List.of("Saavedra", "Nilo", "marta@example", "Quiroga")) {
          if (bytes.contains(name)) {
            found.add(file.getFileName() + ": " + name);
          }
        }
      }
    }
    return found;
  }

  @Test
  void theOwnersOwnWordsWithTheNameAreNamed() {
    fill();
    ledger.change(
        session -> {
          session.shortlists().create("For nilo quiroga saavedra", "");
          session.settings().set("studio.name", "Marta Saavedra and daughter");
        });
    Client known = ledger.read(session -> session.clients().find(client)).orElseThrow();
    List<String> elsewhere = ledger.read(session -> session.clientRecords().namedElsewhere(known));

    assertThat(elsewhere).hasSize(2).first().asString().startsWith("title or message of shortlist");
  }

  @Test
  void theNameIsFoundInAllThatStays() {
    fill();
    String name = "with Nilo Quiroga Saavedra";
    long gone = insertSpot("Mill " + name, CHAPEL);
    ledger.change(session -> session.droppedSpots().drop(session.spots().find(gone).orElseThrow()));
    long id =
        ledger.write(
            session -> {
              long of = session.sessions().ofClient(other).get(0).id();
              session.packing().add(of, "The kite that flew " + name);
              session.packing().add(of, "The kite that fell " + name);
              session.questionnaire().answer(of, new Answer(2, "Who?", name, Set.of(), NOON, true));
              session
                  .messages()
                  .sent(
                      of,
                      new SentMessage(
                          MessageKind.PLAN, SentMessage.Way.COPIED, "", "Plan", name, NOON));
              return of;
            });
    sql("UPDATE plans SET meeting_words = '" + name + "' WHERE session_id = " + id);
    sql("UPDATE share_picks SET words = '" + name + "' WHERE share_id = 2");
    sql("UPDATE client_questions SET words = '" + name + "' WHERE id = 3");
    sql("UPDATE gear SET words = '" + name + "' WHERE id = 4");
    Client known = ledger.read(session -> session.clients().find(client)).orElseThrow();

    assertThat(ledger.<List<String>>read(session -> session.clientRecords().namedElsewhere(known)))
        .containsExactly(
            "words of deleted spot " + gone,
            "pack list of session " + id,
            "answers in session " + id,
            "messages of session " + id,
            "meeting place of session " + id,
            "words on spots in share 2",
            "question to clients 3",
            "thing to pack 4");
  }
}

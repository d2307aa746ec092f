package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.session.Session;
import org.lightledger.store.Ledger;

/** Clients and sessions on the command line, in the demo's ledger. */
class SessionVerbTest {
  @TempDir static Path home;

  @BeforeAll
  static void fillTheDemo() {
    assertThat(new Console(home).run("demo", "--no-serve").exitCode()).isZero();
    assertThat(new Console(home).run("demo", "--no-serve").exitCode()).isZero();
  }

  private static Console.Outcome run(String... args) {
    List<String> words = new ArrayList<>(List.of("--ledger", home.resolve("demo").toString()));
    words.addAll(List.of(args));
    return new Console(home).run(words.toArray(String[]::new));
  }

  private static JsonNode json(String... args) throws JsonProcessingException {
    List<String> words = new ArrayList<>(List.of(args));
    words.add("--json");
    Console.Outcome outcome = run(words.toArray(String[]::new));
    assertThat(outcome.err()).isEmpty();
    assertThat(outcome.exitCode()).isZero();
    return new ObjectMapper().readTree(outcome.out());
  }

  private static void refused(String expected, String... args) {
    Console.Outcome outcome = run(args);
    assertThat(outcome.exitCode()).as(outcome.err()).isEqualTo(2);
    assertThat(outcome.err()).contains(expected);
    assertThat(outcome.out()).isEmpty();
  }

  @Test
  void theDemoHasItsClientsAndSessionsOnce() throws JsonProcessingException {
    JsonNode clients = json("client", "list");
    assertThat(clients.findValuesAsText("calledName")).contains("Ilda", "Aurora and Tomé", "Odilo");
    JsonNode first = json("session", "show", "1");
    assertThat(first.get("date").asText()).isEqualTo("2026-12-01");
    assertThat(first.get("start").asText()).startsWith("2026-12-01T15:2").endsWith("+01:00");
    assertThat(first.get("candidates")).hasSize(4);
    assertThat(first.get("candidates").get(1).get("choice").asText()).isEqualTo("locked");
    assertThat(first.get("answers").get(0).get("places").get(0).asText()).isEqualTo("woods");
    assertThat(json("session", "list").findValuesAsText("date"))
        .contains("2026-12-01", "2026-12-15");
    JsonNode due = json("today");
    assertThat(due.findValuesAsText("task"))
        .contains("agree-plan", "ask-for-answers", "send-questions");
    assertThat(run("today").out()).contains("Ilda, 2026-12-01 (session 1): agree the plan, due");
  }

  @Test
  void theDemosSessionIsPlannedWithItsLockAndKept() throws JsonProcessingException {
    JsonNode plan = json("plan", "1", "--outfits", "1");
    List<String> names = plan.get("stops").findValuesAsText("name");
    assertThat(names).contains("Poplar Avenue").doesNotContain("Bridge Landing");
    assertThat(plan.get("end").asText()).isLessThanOrEqualTo("2026-12-01T17:56");
    assertThat(plan.get("rejected").findValuesAsText("name")).contains("Bridge Landing");
    assertThat(plan.get("overcast")).isNotEmpty();
    assertThat(run("plan", "1").out())
        .contains("Poplar Avenue (spot 2): pictures", "Not Bridge Landing: You excluded it.");
    JsonNode byHand = json("plan", "1", "--order", "2,7", "--outfits", "1");
    assertThat(byHand.get("stops").findValuesAsText("name"))
        .containsExactly("Poplar Avenue", "Reed Bank");
    assertThat(byHand.get("cost").asText()).startsWith("This order is worth");
    assertThat(run("plan", "1", "--keep").err()).contains("Kept.");
    assertThat(json("session", "show", "1").get("state").asText()).isEqualTo("planned");
    Console.Outcome none = run("plan", "1", "--outfits", "4", "--change", "60");
    assertThat(none.exitCode()).isEqualTo(1);
    assertThat(none.out()).contains("No plan fits.");
    refused("--outfits: expected 1 to 4", "plan", "1", "--outfits", "5");
    refused("--sky: expected clear or overcast", "plan", "1", "--sky", "rain");
    refused("expected different candidates in the order", "plan", "1", "--order", "2,99");
  }

  /** The demo's region has roads, so its drives are routed. */
  @Test
  void aQuestionReachesAsFarAsTheDrive() throws JsonProcessingException {
    String[] question = {
      "ask",
      "--light",
      "backlit",
      "--on",
      "2026-12-15",
      "--at",
      "17:00",
      "--within",
      "20000",
      "--of",
      "41.9293,-6.4220",
      "--drive",
      "60"
    };
    JsonNode far = json(question).get("answers");
    assertThat(far.findValuesAsText("driveSource")).contains("routed");
    question[question.length - 1] = "1";
    JsonNode near = json(question).get("answers");
    assertThat(near.findValues("driveMinutes")).allMatch(minutes -> minutes.asInt() <= 1);
    assertThat(near.size()).isPositive().isLessThan(far.size());
    refused(
        "--drive: expected --of and --within",
        "ask",
        "--light",
        "backlit",
        "--on",
        "2026-12-15",
        "--at",
        "17:00",
        "--drive",
        "5");
  }

  @Test
  void aClientIsAddedAndBookedAndEverythingIsSaid() throws JsonProcessingException {
    String client = json("client", "add", "Berta Alonso Vidal").get("clientId").asText();
    assertThat(run("client", "show", client).out()).contains("Berta Alonso Vidal, called Berta");
    String id =
        json("session", "add", client, "--on", "2027-03-28", "--anchor", "starts-16:00")
            .get("sessionId")
            .asText();
    JsonNode candidates =
        json(
                "session",
                "candidates",
                id,
                "2",
                "3",
                "--choice",
                "locked",
                "--arrival",
                "17:00",
                "--light",
                "rim,backlit",
                "--stay",
                "30")
            .get("candidates");
    assertThat(candidates.get(1).get("arrival").asText()).isEqualTo("17:00");
    assertThat(candidates.get(1).get("wanted")).hasSize(2);
    json("session", "candidates", id, "2", "--choice", "free");
    json("session", "candidates", id, "3", "--remove");
    json("session", "answer", id, "1", "By the river", "--places", "water,town");
    String kite = json("session", "pack", id, "--add", "Kite").findValuesAsText("itemId").get(7);
    assertThat(json("session", "pack", id, kite).get(7).get("packed").asBoolean()).isTrue();
    assertThat(run("session", "pack", id, kite, "--undo").out()).contains("[ ] " + kite + "  Kite");
    JsonNode agreed = json("session", "state", id, "agreed");
    assertThat(agreed.get("state").asText()).isEqualTo("agreed");
    assertThat(agreed.get("start").asText()).isEqualTo("2027-03-28T16:00:00+02:00");
    assertThat(agreed.get("candidates")).hasSize(1);
    assertThat(agreed.get("candidates").get(0).get("arrival").isNull()).isTrue();
    assertThat(run("session", "show", id).out()).contains("question 1: town, water By the river");
  }

  @Test
  void oneThatIsCancelledIsToBeToldByTheOwner() throws JsonProcessingException {
    String client = json("client", "add", "Celso Prado").get("clientId").asText();
    String id = json("session", "add", client, "--on", "2027-04-01").get("sessionId").asText();
    String link = run("share", "link", "session:" + id, "--json").out();
    String share = new ObjectMapper().readTree(link).get("shareId").asText();

    Console.Outcome cancelled = run("session", "state", id, "cancelled");

    assertThat(cancelled.exitCode()).isZero();
    assertThat(cancelled.err())
        .contains("Tell Celso in your own words", "share " + share + ", a link");
    assertThat(run("message", id, "questions").err())
        .contains("It can not go out: the session is cancelled");
    assertThat(run("session", "state", id, "booked").err()).isEmpty();
  }

  @Test
  void hoursThatAreHardlyMeantAreSaidWhenTheyAreBooked() throws JsonProcessingException {
    String client = json("client", "add", "Rufina Lago").get("clientId").asText();
    String[] day = {"session", "add", client, "--on", "2027-05-05", "--anchor", "starts-16:00"};
    Console.Outcome first = run(day);
    assertThat(first.err()).isEmpty();
    assertThat(first.out()).contains("Rufina, starts-16:00, booked", "  16:00 to 18:30\n");

    day[day.length - 1] = "starts-17:00";
    Console.Outcome second = run(day);

    assertThat(second.exitCode()).isZero();
    assertThat(second.err())
        .isEqualTo(
            "Mind: another session at the same time: Rufina, Wed 5 May 2027, 16:00 to 18:30\n");
  }

  @Test
  void aDayThatIsOverIsBookedWithAWordAndNoSessionIsDoneBeforeItBegins()
      throws JsonProcessingException {
    String client = json("client", "add", "Telmo Rey").get("clientId").asText();
    Console.Outcome past = run("session", "add", client, "--on", "2020-01-15", "--json");
    assertThat(past.exitCode()).isZero();
    assertThat(past.err())
        .isEqualTo("Mind: Wed 15 Jan 2020 is before today. If it was not meant, change the day.\n");
    String id = new ObjectMapper().readTree(past.out()).get("sessionId").asText();
    try (Ledger ledger =
        Ledger.open(home.resolve("demo"), Clock.fixed(Console.NOW, ZoneOffset.UTC))) {
      Session.Brief brief = new Session.Brief("", "", "", "A ladder", "", "");
      ledger.change(session -> session.sessions().describe(Long.parseLong(id), brief));
    }
    refused("--outcome: expected a word", "session", "state", id, "done");
    assertThat(run("session", "state", id, "done", "--outcome", "High").exitCode()).isZero();

    String ahead =
        json("session", "add", client, "--on", "2027-06-02", "--anchor", "starts-16:00")
            .get("sessionId")
            .asText();
    refused(
        "expected a session that has begun, found one that begins on Wed 2 Jun 2027 at 16:00;"
            + " say that it is done once it has been",
        "session",
        "state",
        ahead,
        "done");
    assertThat(json("session", "show", ahead).get("state").asText()).isEqualTo("booked");
  }

  @Test
  void whatCanNotBeIsRefusedInWords() {
    refused("expected a guardian with an e-mail", "client", "add", "Nilo", "--minor");
    refused("expected an e-mail address", "client", "add", "Nilo", "--email", "nilo@");
    refused(
        "expected the number of a client, found 99", "session", "add", "99", "--on", "2027-01-01");
    refused("--on: expected a day", "session", "add", "1", "--on", "soon");
    refused(
        "--anchor: expected ends-sunset",
        "session",
        "add",
        "1",
        "--on",
        "2027-01-01",
        "--anchor",
        "noon");
    refused(
        "--package: expected one of [Outdoor portraits]",
        "session",
        "add",
        "1",
        "--on",
        "2027-01-01",
        "--package",
        "Gold");
    refused("expected the number of a session, found 99", "session", "show", "99");
    refused("expected the number of a spot, found 999", "session", "candidates", "1", "999");
    refused("for a locked stop alone", "session", "candidates", "2", "1", "--arrival", "17:00");
    refused("expected minutes at a stop", "session", "candidates", "2", "1", "--stay", "1");
    refused("expected the number of a question", "session", "answer", "1", "99", "x");
    refused("found neither", "session", "answer", "1", "1");
    refused("expected a session that has begun", "session", "state", "1", "done");
    refused("expected one of booked", "session", "state", "1", "over");
    refused("expected one of add, list, show", "client");
    refused("expected one of add, list", "session");
  }
}

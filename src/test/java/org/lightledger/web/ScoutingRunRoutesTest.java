package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.ask.Sky;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.OwnDrive;

/** Several planned moments rehearsed in one outing, over real HTTP. */
class ScoutingRunRoutesTest {
  static final String TWO =
      "/scouting-run?stop=1@2026-12-10T16:30&stop=2@2026-12-10T17:10&after=15:00&before=18:00";

  @TempDir static Path folder;
  private static TestSite site;

  @BeforeAll
  static void open() {
    site = new TestSite(folder).withPhotos();
    site.post("/spots/1", "name", "Mill");
    site.post("/spots/2", "name", "Wall <low>");
    site.ledger().change(session -> session.drives().put(new OwnDrive(1, 2, 12)));
  }

  @AfterAll
  static void close() {
    site.close();
  }

  private static void setClock(Instant now) {
    site.clock().advance(Duration.between(site.clock().instant(), now));
  }

  private static String page(String address) {
    TestSite.Answer answer = site.get(address);
    assertThat(answer.status()).as(address).isEqualTo(200);
    return answer.text();
  }

  private static List<String> all(String pattern, String text) {
    return Pattern.compile(pattern, Pattern.DOTALL)
        .matcher(text)
        .results()
        .map(found -> found.group(1))
        .toList();
  }

  @Test
  void theBestFiveDaysAreShownWithTheirVisitsInOrder() {
    String page = page(TWO);

    assertThat(page).contains("The best 5 of 16 days.", "Rehearses all of them, mean sun gap ");
    assertThat(all("<h2>([A-Z][a-z]{2} [0-9]+ [A-Z][a-z]{2} 2026)</h2>", page))
        .hasSize(5)
        .contains("Wed 9 Dec 2026");
    assertThat(all("<h3><a href=\"/spots/(.)\"", page))
        .containsExactly("1", "2", "1", "2", "1", "2", "1", "2", "1", "2");
    assertThat(page)
        .contains("Drive 12 minutes, your own minutes. Your own minutes.", "Wall &lt;low&gt;")
        .contains("Planned for Thu 10 Dec 2026, 17:10. The sun stands ")
        .contains("Direct sun: not known <a class=\"small\" href=\"/spots/2?day=2026-12-");
  }

  /** Each visit lasts as long as was asked for, the drive fits between, and all in free hours. */
  @Test
  void theTimesLeaveRoomForTheDriveAndTheStay() {
    List<String> hours =
        all("class=\"stoptime\">([0-9:]{5} to [0-9:]{5})<", page(TWO + "&stay=25"));

    assertThat(hours).hasSize(10);
    for (int i = 0; i < hours.size(); i += 2) {
      assertThat(minute(hours.get(i), 9) - minute(hours.get(i), 0)).isEqualTo(25);
      assertThat(minute(hours.get(i + 1), 0) - minute(hours.get(i), 9)).isGreaterThanOrEqualTo(12);
      assertThat(minute(hours.get(i), 0)).isGreaterThanOrEqualTo(15 * 60);
      assertThat(minute(hours.get(i + 1), 9)).isLessThanOrEqualTo(18 * 60);
    }
  }

  private static int minute(String hours, int from) {
    return Integer.parseInt(hours.substring(from, from + 2)) * 60
        + Integer.parseInt(hours.substring(from + 3, from + 5));
  }

  @Test
  void theFormHoldsWhatWasAskedFor() {
    String page = page(TWO + "&weekday=sunday&stay=20&first=2026-11-26");

    assertThat(page)
        .contains("name=\"stop\" value=\"1@2026-12-10T16:30\" checked")
        .contains("Mill, Thu 10 Dec 2026, 16:30", "value=\"sunday\" checked")
        .contains(
            "name=\"stay\" min=\"5\" max=\"240\" step=\"1\" inputmode=\"numeric\" value=\"20\"")
        .contains("name=\"first\" value=\"2026-11-26\"", "name=\"last\" value=\"2026-12-10\"")
        .contains("name=\"after\" value=\"15:00\"", "<h2>Sun 6 Dec 2026</h2>")
        .doesNotContain("<h2>Mon ");
  }

  @Test
  void whatCanNotBeRehearsedIsLeftOutWithTheReason() {
    assertThat(page(TWO + "&stop=3@2026-12-10T23:00"))
        .contains("Rehearses 2 of 3, mean sun gap")
        .containsPattern("Left out: [^<]*, Thu 10 Dec 2026, 23:00</dt><dd>Because at the planned")
        .contains("the sun is too far below the horizon to rehearse it.");
    assertThat(page("/scouting-run?stop=3@2026-12-10T23:00"))
        .contains("No day of these has a moment in the same light");
  }

  @Test
  void nothingIsProposedThatIsPast() {
    setClock(Instant.parse("2026-12-10T14:30:00Z"));
    try {
      assertThat(all("class=\"stoptime\">([0-9:]{5})", page(TWO)).get(0))
          .isGreaterThanOrEqualTo("15:30");
    } finally {
      setClock(Instant.parse("2026-11-25T10:00:00Z"));
    }
  }

  @Test
  void badFieldsAreNamedAtOnceAndNothingTypedIsLost() {
    TestSite.Answer answer =
        site.get(
            "/scouting-run?stop=Mill%22%3E&stop=99@2026-12-10T16:30&stop=1@2027-03-28T02:30"
                + "&stop=1@2026-11-01T10:00&stop=1@%2B999999999-12-31T10:00&stop=2@2026-12-10T16:30"
                + "&first=2026-12-20&last=%2B999999999-12-31&after=18:00&before=9:00&stay=2"
                + "&weekday=noday");
    String page = answer.text();

    assertThat(answer.status()).isEqualTo(422);
    assertThat(page)
        .contains("expected a spot's number, @ and its local time")
        .contains("found 99, which the ledger does not have")
        .contains("expected a time that the clocks of Europe/Madrid show on that day")
        .contains("expected a moment to come, until ")
        .contains("#f-last", "#f-before", "#f-stay", "#f-weekday")
        .contains("value=\"Mill&#34;>\"", "value=\"99@2026-12-10T16:30\"")
        .contains("value=\"2@2026-12-10T16:30\" checked", "value=\"18:00\"", "value=\"9:00\"")
        .doesNotContain("class=\"stops\"");
  }

  @Test
  void moreThanEightOrNoneAreRefused() {
    StringBuilder nine = new StringBuilder("/scouting-run?stay=15");
    for (int minute = 10; minute < 19; minute++) {
      nine.append("&stop=1@2026-12-10T16:").append(minute);
    }
    assertThat(site.get(nine.toString()))
        .returns(422, TestSite.Answer::status)
        .extracting(TestSite.Answer::text)
        .asString()
        .contains("expected at most 8 for one outing, found 9", "1@2026-12-10T16:18");
    assertThat(site.get("/scouting-run?stay=15").text()).contains("of them, found none");
    assertThat(page("/scouting-run")).contains("Nothing to rehearse yet");
  }

  /** The largest question there is: eight moments, any hour of a whole year. */
  @Test
  void eightMomentsInAWholeYearAreAnswered() {
    StringBuilder eight = new StringBuilder("/scouting-run?stay=15&last=2027-11-25");
    for (int minute = 10; minute < 18; minute++) {
      eight.append("&stop=1@2027-11-25T16:").append(minute);
    }
    assertThat(page(eight.toString())).contains("The best 5 of 366 days.");
  }

  @Test
  void aShortlistLeadsThereOnceTwoOfItsMomentsAreToCome() {
    String id = keep("1", "", "2026-12-10T16:20:00+01:00", "2026-12-10T17:41:00+01:00");
    assertThat(page("/shortlists/" + id)).doesNotContain("/scouting-run");
    keep("3", id, "2026-11-20T16:20:00+01:00", "2026-11-20T17:40:00+01:00");
    assertThat(page("/shortlists/" + id)).doesNotContain("/scouting-run");
    keep("2", id, "2026-12-11T15:00:00Z", "2026-12-11T16:00:00Z");

    String href = all("href=\"(/scouting-run[^\"]*)\"", page("/shortlists/" + id)).get(0);
    assertThat(href.replace("&amp;", "&"))
        .isEqualTo("/scouting-run?stop=1@2026-12-10T17:00&stop=2@2026-12-11T16:30");
    assertThat(page(href.replace("&amp;", "&"))).contains("Rehearses all of them");
  }

  private static String keep(String spot, String list, String from, String to) {
    String location =
        site.post(
                "/shortlists/keep",
                "spot",
                spot,
                "list",
                list,
                "from",
                from,
                "to",
                to,
                "light",
                "backlit",
                "facing",
                "234")
            .header("Location");
    return location.replaceAll("\\D", "");
  }

  @Test
  void aKeptPlanLeadsThereUntilItIsPast() {
    site.post(
        "/clients", "name", "Berta Alonso Vidal", "called", "Berta", "email", "b@example.org");
    site.post("/sessions", "client", "1", "date", "2026-12-10", "package", "1");
    Instant start = Instant.parse("2026-12-10T15:00:00Z");
    site.ledger()
        .change(
            session ->
                session
                    .plans()
                    .keep(
                        1,
                        new KeptPlan(
                            site.clock().instant(),
                            Sky.CLEAR,
                            false,
                            start,
                            start.plusSeconds(7200),
                            new KeptPlan.Meeting("", null),
                            List.of(stop(1, start), stop(2, start.plusSeconds(3600))))));

    assertThat(page("/sessions/1"))
        .contains("/scouting-run?stop=1@2026-12-10T16:20&amp;stop=2@2026-12-10T17:20")
        .contains("Rehearse these in one outing");
    setClock(start.plusSeconds(7200));
    try {
      assertThat(page("/sessions/1")).doesNotContain("/scouting-run");
    } finally {
      setClock(Instant.parse("2026-11-25T10:00:00Z"));
    }
  }

  private static KeptPlan.Stop stop(long spot, Instant arrive) {
    return new KeptPlan.Stop(
        spot,
        arrive,
        arrive.plusSeconds(600),
        arrive.plusSeconds(1800),
        arrive.plusSeconds(2400),
        1,
        List.of(),
        null,
        null,
        null);
  }
}

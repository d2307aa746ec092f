package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The commands and their machine output, on the demo's ledger. */
class LightledgerTest {
  @TempDir static Path home;
  private static String ledger;
  private static Console.Outcome demo;

  @BeforeAll
  static void fillTheDemo() {
    ledger = home.resolve("demo").toString();
    demo = new Console(home).run("demo", "--no-serve", "--json");
  }

  @Test
  void theDemoAnswersWhichSpotsAreBacklitAtFiveNextMonth() {
    assertThat(demo.exitCode()).isZero();
    JsonNode answers = json(demo);
    assertThat(answers.at("/question/light").asText()).isEqualTo("backlit");
    assertThat(answers.at("/question/on").asText()).isEqualTo("2026-12-15");
    assertThat(answers.at("/question/at").asText()).isEqualTo("17:00");
    assertThat(names(answers)).contains("Poplar Avenue", "Reed Bank", "Ansar Meadow");
    for (JsonNode answer : answers.get("answers")) {
      assertThat(Math.abs(answer.get("relativeBearingDeg").asDouble())).isLessThanOrEqualTo(30);
      assertThat(answer.get("sunAltitudeDeg").asDouble()).isBetween(7.0, 8.0);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "spot abc, 'ID): expected a whole number, found \"abc\"'",
    "spot 1 --split 1;x, 'expected a whole number, found \"x\"'",
    "spots --within near --of 41;-6, 'expected a number, found \"near\"'",
    "spot 1 --on soon, 'expected a day such as 2026-12-15, found \"soon\"'",
    "share link 1 --days 2.5, 'expected a whole number, found \"2.5\"'"
  })
  void aWordThatIsNoNumberIsToldInTwoLines(String command, String expected) {
    Console.Outcome outcome = run(command.replace(';', ',').split(" "));

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err())
        .contains(expected, "--help\" says how it is used")
        .doesNotContain("Usage:", "Exception");
    assertThat(outcome.err().lines()).hasSize(2);
  }

  @Test
  void anAnswerHasTheFieldsThatOthersRelyOn() {
    JsonNode answer =
        json(run("ask", "--light", "backlit", "--on", "2026-12-15", "--at", "17:00", "--json"))
            .get("answers")
            .get(0);

    assertThat(answer.fieldNames())
        .toIterable()
        .contains(
            "spotId",
            "name",
            "lat",
            "lon",
            "light",
            "facingDeg",
            "sunAzimuthDeg",
            "sunAltitudeDeg",
            "relativeBearingDeg",
            "directSun",
            "skylineDeg",
            "window",
            "tier",
            "nearestShot",
            "reason");
    assertThat(answer.at("/window/from").asText()).matches("2026-12-15T\\d\\d:\\d\\d:.*\\+01:00");
    assertThat(answer.get("directSun").asBoolean()).isTrue();
    assertThat(answer.at("/clearance/marginDeg").asDouble())
        .isCloseTo(
            answer.get("sunAltitudeDeg").asDouble() - answer.get("skylineDeg").asDouble(),
            within(0.001));
    assertThat(answer.get("directUntil").asText()).startsWith("2026-12-15T17:");
  }

  /** The same shots without the land and the map of the region, and with them. */
  @Test
  void whatStandsAroundChangesTheAnswer() {
    String bare = home.resolve("bare").toString();
    Console console = new Console(home);
    console.run("--ledger", bare, "import", home.resolve("demo/sample-photos").toString());
    String[] question = {
      "ask", "--light", "backlit", "--on", "2026-12-15", "--at", "17:00", "--json"
    };
    JsonNode withoutLand =
        json(
            console.run(
                Stream.concat(Stream.of("--ledger", bare), Arrays.stream(question))
                    .toArray(String[]::new)));
    JsonNode withLand = json(run(question));

    assertThat(withoutLand.get("answers"))
        .allSatisfy(answer -> assertThat(answer.get("directSun").isNull()).isTrue());
    assertThat(withLand.get("matched").asInt()).isLessThan(withoutLand.get("matched").asInt());
    assertThat(names(withLand)).doesNotContain("Tinajo Alley");
    JsonNode alley =
        json(run("ask", "--light", "open-shade", "--on", "2026-12-15", "--at", "17:00", "--json"));
    assertThat(names(alley)).contains("Tinajo Alley");
    assertThat(alley.get("answers"))
        .anySatisfy(
            answer ->
                assertThat(answer.get("reason").asText()).contains("is behind a building by"));
  }

  /** The arcade's vault stands over the spot, which no skyline tells. */
  @Test
  void theSunIsNeverSaidToReachASpotInsideAnOutline() {
    JsonNode answers =
        json(run("ask", "--light", "backlit", "--on", "2026-06-20", "--at", "11:30", "--json"))
            .get("answers");

    JsonNode arcade =
        StreamSupport.stream(answers.spliterator(), false)
            .filter(answer -> answer.get("name").asText().equals("Cloth Hall Arcade"))
            .findFirst()
            .orElseThrow();
    assertThat(arcade.get("directSun").isNull()).isTrue();
    assertThat(arcade.get("reason").asText()).contains("as far as is known");
  }

  @Test
  void importingTheDemosPhotosAgainAddsNothing() {
    JsonNode report = json(run("import", home.resolve("demo/sample-photos").toString(), "--json"));

    assertThat(report.get("read").asInt()).isGreaterThanOrEqualTo(50);
    assertThat(report.get("added").asInt()).isZero();
    assertThat(report.get("spotsMade").asInt()).isZero();
    assertThat(report.get("known").asInt() + report.get("unreadable").asInt())
        .isEqualTo(report.get("read").asInt());
    assertThat(report.get("files").get(0).fieldNames())
        .toIterable()
        .contains("path", "status", "shotId", "problems");
  }

  @Test
  void aDateRangeARadiusAndTheSunsClock() {
    JsonNode near =
        json(
            run(
                "ask",
                "--light",
                "backlit,rim",
                "--on",
                "2026-12-01..2026-12-31",
                "--at",
                "sunset-60m",
                "--within",
                "300",
                "--of",
                "41.9293,-6.4220",
                "--json"));

    assertThat(near.get("considered").asInt()).isBetween(1, 10);
    assertThat(near.get("answers").get(0).get("days").asInt()).isBetween(1, 31);
    assertThat(near.get("answers").findValuesAsText("days")).contains("31");
  }

  @Test
  void theSunOfThePublishedExample() {
    // NREL SPA worked example, Reda and Andreas 2008 (NREL/TP-560-34302), table A5.1: topocentric
    // azimuth 194.340241 and zenith 50.111622 degrees, at 820 hPa and 11 degrees Celsius.
    JsonNode sun =
        json(
            run(
                "sun",
                "--lat",
                "39.742476",
                "--lon",
                "-105.1786",
                "--at",
                "2003-10-17T12:30:30-07:00",
                "--json"));

    assertThat(sun.get("azimuthDeg").asDouble()).isCloseTo(194.340241, within(0.001));
    assertThat(sun.get("geometricAltitudeDeg").asDouble()).isCloseTo(39.872046, within(0.001));
  }

  @Test
  void aSkylineMeasuredByHandHasAValueForEveryHalfDegree() throws IOException {
    Path points = home.resolve("points.csv");
    Files.writeString(points, "azimuth,altitude\n90,10\n270,20\n");

    JsonNode skyline =
        json(
            run(
                "skyline",
                "--lat",
                "41.93",
                "--lon",
                "-6.42",
                "--measured",
                points.toString(),
                "--json"));

    assertThat(skyline.get("stepDeg").asDouble()).isEqualTo(0.5);
    assertThat(skyline.get("anglesDeg")).hasSize(720);
    assertThat(skyline.get("anglesDeg").get(180).asDouble()).isEqualTo(10);
    assertThat(skyline.get("anglesDeg").get(360).asDouble()).isEqualTo(15);
    assertThat(skyline.get("anglesDeg").get(540).asDouble()).isEqualTo(20);
    assertThat(skyline.get("sources").get(0).asText()).isEqualTo("measured");
    assertThat(run("skyline", "--lat", "41.93", "--lon", "-6.42").exitCode()).isEqualTo(2);
  }

  @Test
  void aPolarNightIsSaidAsSuch() {
    JsonNode day =
        json(run("sun", "--lat", "78.22", "--lon", "15.65", "--day", "2026-12-21", "--json"));

    assertThat(day.get("absent"))
        .anySatisfy(
            absent -> {
              assertThat(absent.get("name").asText()).isEqualTo("sunrise");
              assertThat(absent.get("reason").asText()).isNotBlank();
            });
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "ask --light golden --on 2026-12-15 --at 17:00 | \"golden\"",
        "ask --light backlit --on 2026-02-30 --at 17:00 | 2026-02-30",
        "ask --light backlit --on 2026-12-15 --at 5pm | 5pm",
        "ask --light backlit --on 2026-12-15 --at 17:00 --within 5 | both or neither",
        "sun --lat 95 --lon 0 --at 2026-12-15T17:00:00Z | 95.0",
        "sun --lat NaN --lon 0 --at 2026-12-15T17:00:00Z | NaN",
        "sun --lat 5 --lon 0 --at noon | \"noon\"",
        "spot 999999 | 999999",
        "share file 999999 --out x.html | 999999",
        "shortlist --new Autumn | none",
        "frobnicate | frobnicate",
        "import | PATH",
      })
  void badUsageSaysWhatWasFoundAndExitsWithTwo(String command, String found) {
    Console.Outcome outcome = run(command.strip().split(" "));

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err()).contains(found);
    assertThat(outcome.out()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"spots", "backup copy.gpkg", "share link 1"})
  void nothingButAnImportMakesALedger(String command) {
    Path nowhere = home.resolve("nowhere");
    List<String> words = new ArrayList<>(List.of("--ledger", nowhere.toString()));
    words.addAll(List.of(command.split(" ")));

    Console.Outcome outcome = new Console(home).run(words.toArray(String[]::new));

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err()).contains(nowhere.toString(), "import");
    assertThat(nowhere).doesNotExist();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "demo",
        "import",
        "ask",
        "spots",
        "spot",
        "sun",
        "shortlist",
        "share file",
        "share link",
        "share revoke",
        "check",
        "backup",
        "serve"
      })
  void everyVerbHelps(String verb) {
    List<String> words = new ArrayList<>(List.of(verb.split(" ")));
    words.add("--help");

    assertThat(new Console(home).run(words.toArray(String[]::new)).exitCode()).isZero();
  }

  @Test
  void aShortlistBecomesAFileThatTellsNoPosition() throws IOException {
    JsonNode made =
        json(
            run(
                "shortlist",
                "--new",
                "December",
                "1",
                "2",
                "--light",
                "backlit",
                "--on",
                "2026-12-15",
                "--at",
                "17:00",
                "--json"));
    Path out = home.resolve("december.html");

    Console.Outcome file =
        run("share", "file", made.get("shortlistId").asText(), "--out", out.toString());

    assertThat(file.exitCode()).isZero();
    String html = Files.readString(out);
    assertThat(html).contains("December", "15 December 2026").contains("data:image/jpeg;base64,");
    assertThat(html).doesNotContain("41.9", "-6.4", "<script src", "http://", "https://");
    assertThat(run("share", "file", made.get("shortlistId").asText(), "--out", out.toString()))
        .satisfies(again -> assertThat(again.exitCode()).isEqualTo(2));
  }

  @Test
  void aLinkIsMadeAndTakenBack() {
    String list =
        json(run("shortlist", "--new", "Spring", "1", "--json")).get("shortlistId").asText();
    JsonNode link = json(run("share", "link", list, "--days", "3", "--json"));

    assertThat(link.get("path").asText()).matches("/s/[A-Za-z0-9_-]{32}");
    assertThat(run("share", "revoke", link.get("shareId").asText()).exitCode()).isZero();
  }

  @Test
  void theLedgerIsSoundAndItsCopyToo() {
    assertThat(run("check").exitCode()).isZero();
    Path copy = home.resolve("copy/ledger.gpkg");
    copy.getParent().toFile().mkdirs();
    assertThat(run("backup", copy.toString()).exitCode()).isZero();

    Console.Outcome check =
        new Console(home).run("--ledger", copy.getParent().toString(), "check", "--json");
    assertThat(check.exitCode()).isZero();
    assertThat(json(check)).isEmpty();
  }

  private static Console.Outcome run(String... args) {
    List<String> all = new ArrayList<>(List.of("--ledger", ledger));
    all.addAll(List.of(args));
    return new Console(home).run(all.toArray(String[]::new));
  }

  private static JsonNode json(Console.Outcome outcome) {
    try {
      return new ObjectMapper().readTree(outcome.out());
    } catch (JsonProcessingException e) {
      throw new AssertionError("no JSON: " + outcome, e);
    }
  }

  private static List<String> names(JsonNode answers) {
    List<String> names = new ArrayList<>();
    answers.get("answers").forEach(answer -> names.add(answer.get("name").asText()));
    return names;
  }
}

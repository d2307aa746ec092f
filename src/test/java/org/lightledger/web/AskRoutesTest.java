package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class AskRoutesTest {
  /** The mill's shots look WSW; an hour before sunset in December the sun stands in the SW. */
  private static final String DECEMBER =
      "/?light=backlit&light=rim&from=2026-12-01&to=2026-12-31&when=sun&minutes=60&side=before"
          + "&event=sunset";

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
  }

  @AfterEach
  void close() {
    site.close();
  }

  @Test
  void anAnswerSaysWhenWhichWayWhereTheSunStandsAndWhatItRestsOn() {
    String page = site.get(DECEMBER).text();

    assertThat(page)
        .contains(
            "2 spots are backlit or rim-lit", "1 Dec 2026 to 31 Dec 2026, 60 min before sunset")
        .contains(" of 31 days", "tier-scouted", "Put on shortlist")
        .containsPattern("Face</dt><dd>SW 23[0-9]°")
        .containsPattern("Sun</dt><dd>SW 2[0-9]{2}°, [0-9.]+° high")
        .containsPattern("<strong>[0-9]{2}:[0-9]{2} to [0-9]{2}:[0-9]{2}</strong>")
        .contains("/shots/1/preview?w=480", "href=\"/spots/1\"");
  }

  @Test
  void aSpotWithoutAFacingStandsApartFromTheAnswers() {
    String page = site.get(DECEMBER).text();

    assertThat(page.indexOf("No facing known yet"))
        .isGreaterThan(page.indexOf("data-number=\"2\""));
    assertThat(page).contains("no facing known yet");
  }

  @Test
  void theQuestionOfTheAddressStandsInTheForm() {
    String page =
        site.get(
                "/?light=side&from=2027-03-04&when=clock&at=08:15&until=09:45&near=41.95,-6.61&within=2.5")
            .text();

    assertThat(page)
        .containsPattern("value=\"side\" checked")
        .contains("value=\"2027-03-04\"", "value=\"08:15\"", "value=\"09:45\"")
        .contains("value=\"41.950000,-6.610000\"", "value=\"2.5\"");
  }

  @Test
  void aChoiceWhoseFieldsAreBadStaysChosenAndItsFieldsAsTheyWereTyped() {
    TestSite.Answer page =
        site.get("/?light=side&from=2026-12-15&when=clock&at=&until=18:00&within=10");

    assertThat(page.status()).isEqualTo(422);
    assertThat(page.text())
        .contains("expected a time such as 17:30, found nothing")
        .contains("<span class=\"label\">Time from</span>", "name=\"until\" value=\"18:00\"")
        .containsPattern("name=\"when\" value=\"clock\" checked")
        .doesNotContainPattern("name=\"when\" value=\"sun\" checked");
    assertThat(site.get("/?light=side&from=2026-12-15&when=clock&at=18:00&until=17:00").text())
        .contains("name=\"at\" value=\"18:00\"", "name=\"until\" value=\"17:00\"")
        .containsPattern("name=\"when\" value=\"clock\" checked");
  }

  @Test
  void whenTheSunIsDownThePageSaysSoAndWhatToAsk() {
    String day = "/?light=side&from=2026-12-15&to=2026-12-15";
    String evening = site.get(day + "&when=clock&at=20:00").text();

    assertThat(evening)
        .containsPattern(
            "the sun is below the horizon: at Spot 1 it set at 17:5[0-9] on Tue 15 Dec")
        .contains("Ask for an hour before sunset, or for twilight or dark.")
        .doesNotContain("the sun moves about 15", "stands elsewhere", "neighbouring light");
    assertThat(site.get(day + "&when=sun&minutes=60&side=after&event=sunset").text())
        .containsPattern("at Spot 1 it set at 17:5[0-9]");
    assertThat(site.get(day + "&when=clock&at=05:00&until=06:00").text())
        .containsPattern("at Spot 1 it rises at 08:[0-9]{2} on Tue 15 Dec")
        .contains("Ask for an hour after sunrise, or for twilight or dark.");
    assertThat(site.get(day.replace("side", "overhead") + "&when=clock&at=17:00").text())
        .contains("the sun stands elsewhere")
        .doesNotContain("below the horizon: at");
  }

  /** In the night to 29 March 2026 Spain's clocks go from two to three (tzdata). */
  @Test
  void anHourThatTheClocksSkipIsNamed() {
    String night = "/?light=side&from=2026-03-29&to=2026-03-29&when=clock&at=02:30";

    assertThat(site.get(night).text())
        .contains("This hour does not exist there then", "Ask for another hour or another day.")
        .doesNotContain("stands elsewhere", "neighbouring light");
    assertThat(site.get(night + "&until=03:10").text()).doesNotContain("does not exist");
  }

  /** Under clouds no other hour and no neighbour of a sunlit class would help. */
  @Test
  void underAnOvercastSkyTheAdviceIsTheLightThatIsThere() {
    String clouds = "/?from=2026-12-15&to=2026-12-15&when=clock&at=15:00&sky=overcast&light=";

    assertThat(site.get(clouds + "backlit").text())
        .contains("Under an overcast sky the light by day is open shade: ask for that.")
        .doesNotContain("stands elsewhere", "neighbouring light", "Try another hour");
    assertThat(site.get(clouds + "open-shade").text()).doesNotContain("ask for that");
  }

  @Test
  void theCircleLeavesOutWhatLiesBeyondIt() {
    String page = site.get(DECEMBER + "&near=41.954,-6.61&within=0.1").text();

    assertThat(page).contains("41.954000,-6.610000,100").doesNotContain("href=\"/spots/1\"");
  }

  @Test
  void aPartialUpdateHoldsTheAnswersAlone() {
    String part = site.get(DECEMBER, "HX-Request", "true").text();

    assertThat(part).startsWith("<section id=\"answers\"").doesNotContain("<html");
  }

  @Test
  void aPageRestoredFromTheBrowsersHistoryIsWhole() {
    String page =
        site.get(DECEMBER, "HX-Request", "true", "HX-History-Restore-Request", "true").text();

    assertThat(page).contains("<html");
  }

  @Test
  void badFieldsAreNamedAtOnceAndTheGoodOnesStay() {
    TestSite.Answer answer =
        site.get("/?light=rim&from=yesterday&to=2026-12-31&when=clock&at=26:00&near=nowhere");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("3 fields need another look", "href=\"#f-from\"", "href=\"#f-at\"")
        .contains("value=\"nowhere\"", "found \"yesterday\"")
        .containsPattern("value=\"rim\" checked");
  }

  @Test
  void noAnswerTeachesWhatToTry() {
    assertThat(site.get("/?light=twilight&from=2026-12-01&when=clock&at=12:00").text())
        .contains("No spots are in twilight", "3 spots were looked at", "Try another hour");
  }

  @Test
  void todayIsTheDateAtThePlaceAndNotTheMachines() {
    site.clock().advance(Duration.ofHours(13).plusMinutes(30));

    assertThat(site.get("/").text())
        .as("23:30 UTC on 25 November is 00:30 on the 26th at the spots")
        .contains("data-from=\"2026-11-26\" data-to=\"2026-11-26\"");
  }
}

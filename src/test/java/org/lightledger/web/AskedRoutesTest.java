package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.spot.Trait;
import org.lightledger.store.QuestionStore;

class AskedRoutesTest {
  static final String ASKED =
      "light=backlit&light=rim&from=2026-12-01&to=2026-12-31&when=sun&minutes=60&side=before"
          + "&event=sunset&within=10";

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

  private List<QuestionStore.Kept> kept() {
    return site.ledger().read(session -> session.questions().all());
  }

  private Set<Trait> traits() {
    return site.ledger().read(session -> session.traits().of(1));
  }

  @Test
  void theTermsNarrowTheAnswersAndAreSaidAboveThem() {
    site.ledger().change(s -> s.traits().set(2, Set.of(Trait.WATER)));

    String page = site.get("/?" + ASKED + "&with=water&weekday=sunday").text();

    assertThat(page)
        .contains("1 spot is backlit or rim-lit", "class=\"more\" open")
        .contains("Only on Sundays; where the place has: water.")
        .contains("href=\"/spots/2\"")
        .doesNotContain("href=\"/spots/1\"");
    assertThat(site.get("/?" + ASKED).text())
        .contains("class=\"more\">")
        .doesNotContain("class=\"terms\"");
  }

  @Test
  void theShapeLeavesOutWhatLiesOutside() {
    String page =
        site.get("/?" + ASKED + "&inside=41.949,-6.612;41.951,-6.612;41.951,-6.608;41.949,-6.608")
            .text();

    assertThat(page)
        .contains("inside a shape of 4 corners", "href=\"/spots/1\"")
        .doesNotContain("href=\"/spots/2\"");
  }

  @Test
  void aBadTermIsNamedAndShownAgain() {
    TestSite.Answer answer = site.get("/?" + ASKED + "&inside=here&sun=none");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("2 fields need another look", "href=\"#f-inside\"", "href=\"#f-sun\"")
        .contains(">here</textarea>", "class=\"more\" open");
  }

  @Test
  void anOvercastSkyIsOpenShadeAndIsExpectedToBeDarker() {
    assertThat(site.get("/?" + ASKED + "&sky=overcast").text())
        .contains("Under an overcast sky the light by day is open shade");
    assertThat(site.get("/?" + ASKED.replace("rim", "open-shade") + "&sky=overcast").text())
        .contains("for the sun", "an overcast sky")
        .containsPattern("Expected</strong> EV100 [0-9.]+: 1?/?[0-9.]+ s at f/2.8, ISO [0-9]+");
  }

  @Test
  void aQuestionIsKeptAsAskedListedAndRemoved() {
    TestSite.Answer kept =
        site.post("/questions", "keep-name", "Winter <evenings>", "query", ASKED + "&with=water");

    assertThat(kept.status()).isEqualTo(303);
    assertThat(site.get(kept.header("Location").replaceAll("#.*", "")).text())
        .contains("Winter &lt;evenings&gt;", "asked above", "Kept questions (1)");
    long id = kept().get(0).id();
    assertThat(kept().get(0).query()).isEqualTo(ASKED + "&with=water");

    assertThat(site.post("/questions/" + id + "/remove", "query", ASKED).status()).isEqualTo(303);
    assertThat(kept()).isEmpty();
    assertThat(site.post("/questions/" + id + "/remove", "query", ASKED).status()).isEqualTo(404);
  }

  @Test
  void aQuestionWithoutANameOrWithABadFieldIsNotKept() {
    assertThat(site.post("/questions", "keep-name", " ", "query", ASKED).status()).isEqualTo(422);
    assertThat(site.post("/questions", "keep-name", "x", "query", ASKED + "&sky=green").text())
        .contains("found \"green\"");
    assertThat(kept()).isEmpty();
  }

  @Test
  void theTraitsOfASpotAreKeptShownAndTakenBack() {
    site.post("/spots/1", "name", "Mill", "with", "water", "with", "level-access");

    assertThat(traits()).containsExactlyInAnyOrder(Trait.WATER, Trait.LEVEL_ACCESS);
    assertThat(site.get("/spots/1").text())
        .contains("water, level access")
        .containsPattern("value=\"level-access\" checked");

    site.post("/spots/1", "name", "Mill");
    assertThat(traits()).isEmpty();
    assertThat(site.post("/spots/1", "name", "Mill", "with", "lift").status()).isEqualTo(422);
  }

  @Test
  void theWindowsOfALightAreListed() {
    String page =
        site.get("/spots/1?when-light=backlit&when-from=2026-12-01&when-to=2026-12-03").text();

    assertThat(page)
        .contains("<details id=\"when\" open>", "Backlit, 1 Dec 2026 to 3 Dec 2026: 3 windows.")
        .contains("Tue 1 Dec 2026", "<details id=\"rehearse\">");
  }

  @Test
  void theBestEarlierDaysAreListedWithTheMirrorDay() {
    String page = site.get("/spots/1?plan-day=2027-01-20&plan-at=16:30&plan-weekday=sunday").text();

    assertThat(page)
        .contains("<details id=\"rehearse\" open>", "Wed 20 Jan 2027, 16:30")
        .containsPattern("mirror day[^.]* was [A-Z][a-z]{2} 2[0-9] Nov 2026")
        .contains("sun gap", "Direct sun: not known")
        .containsPattern("<strong>Sun [0-9]+ (Nov|Dec|Jan) 202[67]")
        .doesNotContainPattern(
            "<strong>Mon [0-9]+ (Nov|Dec|Jan) 202[67], [0-9:]+</strong> <span class=\"quiet\">sun gap");
  }

  @Test
  void theDaysInLineAreListedWithTheCaution() {
    String page = site.get("/spots/1?line=240&line-from=2026-12-01&line-to=2027-03-01").text();

    assertThat(page)
        .contains("<details id=\"in-line\" open>", "never look at the sun")
        .contains("Sunset", "of the line");
    assertThat(site.get("/spots/1?line=0&line-from=2026-12-01&line-to=2027-03-01").text())
        .contains("On no day from 1 Dec 2026 to 1 Mar 2027");
  }

  @Test
  void badFieldsOfThePlansAreNamedAtOnce() {
    TestSite.Answer answer =
        site.get(
            "/spots/3?when-light=blue&when-from=2026-12-03&when-to=2026-12-01"
                + "&plan-day=2020-01-01&plan-at=25:00&line=400");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("href=\"#f-when-light\"", "href=\"#f-when-to\"", "href=\"#f-when-facing\"")
        .contains("href=\"#f-plan-day\"", "href=\"#f-plan-at\"", "href=\"#f-line\"");
  }

  @Test
  void whatHasBeenScoutedStandsInATableAndInWords() {
    String page = site.get("/spots/1").text();

    assertThat(page)
        .contains("Scouted: 2 of 24 seasons and times seen", "seen-seen\">1 shot</td>")
        .contains("Never seen in spring, summer or winter.")
        .contains("Never seen within an hour of sunrise in autumn.");
  }
}

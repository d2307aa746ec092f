package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;

class SpotRoutesTest {
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

  private Spot spot(long id) {
    return site.ledger().read(session -> session.spots().find(id).orElseThrow());
  }

  @Test
  void theOwnersWordsAreKept() {
    TestSite.Answer answer =
        site.post(
            "/spots/1",
            "name",
            " Mill race ",
            "area",
            "River",
            "notes",
            "key at the mill",
            "cautions",
            "wet steps",
            "open",
            "yes");

    assertThat(answer.status()).isEqualTo(303);
    assertThat(spot(1))
        .returns("Mill race", Spot::name)
        .returns("River", Spot::area)
        .returns("key at the mill", Spot::notes)
        .returns("wet steps", Spot::cautions)
        .returns(true, Spot::open);
    assertThat(site.get(answer.header("Location")).text())
        .contains("Saved.", "Mill race", "wet steps", "open: any way works");
  }

  @Test
  void aBlankNameAndTooLongNotesAreNamedTogetherAndWhatWasTypedStays() {
    String before = spot(1).name();
    TestSite.Answer answer =
        site.post("/spots/1", "name", "  ", "notes", "x".repeat(4001), "cautions", "kept words");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("2 fields need another look", "expected some words, found nothing")
        .contains("expected at most 4000 characters, found 4001", "kept words");
    assertThat(spot(1).name()).isEqualTo(before);
  }

  @Test
  void theOwnersFacingsComeAndGoAndThoseOfTheShotsStay() {
    int learned = spot(1).facings().size();

    assertThat(site.post("/spots/1/facings", "bearing", "360", "spread", "25").status())
        .isEqualTo(303);
    assertThat(spot(1).facings()).hasSize(learned + 1);
    assertThat(spot(1).facings().get(0))
        .returns(0.0, facing -> facing.bearing().trueDeg())
        .returns(25.0, Facing::spreadDeg)
        .returns(Facing.Origin.OWNER, Facing::origin);

    assertThat(site.post("/spots/1/facings", "bearing", "10").status()).isEqualTo(303);
    assertThat(page("/spots/1")).contains("name=\"bearing\" value=\"0.0\"");
    assertThat(site.post("/spots/1/facings/0/remove", "bearing", "0.0").status()).isEqualTo(303);
    assertThat(site.post("/spots/1/facings/0/remove", "bearing", "0.0").status())
        .as("a second click removes no other one")
        .isEqualTo(404);
    assertThat(site.post("/spots/1/facings/0/remove", "bearing", "10.0").status()).isEqualTo(303);
    assertThat(spot(1).facings())
        .hasSize(learned)
        .allMatch(facing -> facing.origin() == Facing.Origin.SHOTS);
    assertThat(site.post("/spots/1/facings/0/remove", "bearing", "10.0").status()).isEqualTo(404);
  }

  /** A page that was opened before another changed the spot takes no caution away unasked. */
  @Test
  void aPageOfYesterdaySavesNothingOverWhatWasSaidMeanwhile() {
    String shown = shown(page("/spots/1"));
    site.post("/spots/1", "name", "Weir", "cautions", "slippery steps", "notes", "gate 4711");

    TestSite.Answer refused =
        site.post("/spots/1", "name", "Old weir", "cautions", "", "shown", shown);

    assertThat(refused.status()).isEqualTo(409);
    assertThat(refused.text())
        .contains("changed meanwhile", "slippery steps", "gate 4711", "value=\"Old weir\"");
    assertThat(spot(1).cautions()).isEqualTo("slippery steps");
    TestSite.Answer again =
        site.post(
            "/spots/1", "name", "Old weir", "cautions", "wet", "shown", shown(refused.text()));
    assertThat(again.status()).isEqualTo(303);
    assertThat(spot(1).cautions()).isEqualTo("wet");
  }

  private String page(String path) {
    return site.get(path).text();
  }

  private static String shown(String page) {
    Matcher found = Pattern.compile("name=\"shown\" value=\"([0-9a-f]{16})\"").matcher(page);
    assertThat(found.find()).isTrue();
    return found.group(1);
  }

  @Test
  void aBadFacingIsRefusedWithBothFieldsNamed() {
    TestSite.Answer answer = site.post("/spots/1/facings", "bearing", "400", "spread", "wide");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text())
        .contains("expected a number from 0 to 360°, found \"400\"")
        .contains("expected a number from 0 to 180°, found \"wide\"");
  }

  @Test
  void aFacingThatIsNotANumberIsRefused() {
    assertThat(site.post("/spots/1/facings", "bearing", "NaN").status()).isEqualTo(422);
  }

  @Test
  void theGalleryShowsEachShotsLightAlongItsOwnFacing() {
    assertThat(site.get("/spots/1").text())
        .contains("Fri 20 Nov 2026, 17:00", "Fri 20 Nov 2026, 17:20", "EV100</dt><dd>10.9")
        .contains("<strong>Backlit</strong>", "id=\"shot-1\"", "href=\"#shot-1\"");
  }

  @Test
  void searchFindsWordsInEveryTextAndKindsNarrowIt() {
    site.post("/spots/1", "name", "Mill race", "notes", "Key at the inn", "cautions", "");
    site.post("/spots/2", "name", "Town wall", "cautions", "loose stones");
    site.post("/spots/3", "name", "Arcade", "cautions", "");

    assertThat(site.get("/spots?q=INN%20mill").text())
        .contains("1 of 3 spots", "Mill race")
        .doesNotContain("Town wall");
    assertThat(site.get("/spots?only=cautions").text())
        .contains("Town wall")
        .doesNotContain("Mill race");
    assertThat(site.get("/spots?only=unfaced").text())
        .contains("Arcade")
        .doesNotContain("Town wall");
    assertThat(site.get("/spots?q=lighthouse").text()).contains("Nothing matches");
  }
}

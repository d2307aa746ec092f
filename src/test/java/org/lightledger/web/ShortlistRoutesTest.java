package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.light.LightClass;
import org.lightledger.shortlist.Shortlist;

class ShortlistRoutesTest {
  private static final String[] MOMENT = {
    "from",
    "2026-12-10T16:20:00+01:00",
    "to",
    "2026-12-10T17:40:00+01:00",
    "light",
    "backlit",
    "facing",
    "234.0"
  };

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

  private void keep(String spot, String list) {
    String[] form = new String[MOMENT.length + 4];
    System.arraycopy(MOMENT, 0, form, 4, MOMENT.length);
    System.arraycopy(new String[] {"spot", spot, "list", list}, 0, form, 0, 4);
    assertThat(site.post("/shortlists/keep", form).status()).isEqualTo(303);
  }

  private Shortlist list(long id) {
    return site.ledger().read(session -> session.shortlists().find(id).orElseThrow());
  }

  private List<Long> spots() {
    return list(1).entries().stream().map(Shortlist.Entry::spotId).toList();
  }

  /** What a client has open changes only when the owner picks it. */
  @Test
  void aListThatAClientSeesIsMarkedAndIsNotWhereSpotsGoByThemselves() {
    keep("1", "");
    String ask = "/?light=backlit&from=2026-12-10&to=2026-12-10&when=sun&minutes=45";
    assertThat(site.get("/spots/2").text()).contains("<option value=\"1\" selected>");
    assertThat(site.get(ask).text()).contains("name=\"list\" value=\"1\"");

    site.post("/shortlists/1/shares", "as", "file");
    assertThat(site.get("/shortlists").text())
        .contains("shared by 1 file")
        .doesNotContain("1 link");
    assertThat(site.get("/spots/2").text())
        .contains("(a client has a copy)</option>", "<option value=\"\" selected>")
        .doesNotContain("(a client sees it)");

    site.post("/shortlists/1/shares", "as", "link");

    assertThat(site.get("/shortlists").text()).contains("shared by 1 link and 1 file");
    assertThat(site.get("/spots/2").text())
        .contains("(a client sees it)</option>", "<option value=\"\" selected>")
        .doesNotContain("<option value=\"1\" selected>");
    assertThat(site.get(ask).text())
        .contains("(a client sees it)</option>", "name=\"list\" value=\"\"")
        .doesNotContain("name=\"list\" value=\"1\"");
    assertThat(site.get("/shortlists/1").text()).contains("Links open on this computer only");
  }

  @Test
  void aSpotGoesOnAShortlistWithItsMomentAndTheSameMomentOnlyOnce() {
    keep("1", "");
    keep("1", "1");

    assertThat(list(1).title()).isEqualTo("Shortlist of 25 Nov 2026");
    assertThat(list(1).entries()).hasSize(1);
    assertThat(list(1).entries().get(0).moment())
        .isNotNull()
        .returns(LightClass.BACKLIT, Shortlist.Moment::light);
    assertThat(site.get("/shortlists/1").text())
        .contains("Thu 10 Dec 2026, 16:20 to 17:40", "face SW 234°");
  }

  @Test
  void entriesMoveUpAndDownAndStopAtTheEnds() {
    keep("1", "");
    keep("2", "1");
    keep("3", "1");

    site.post("/shortlists/1/entries/3/up");
    assertThat(spots()).containsExactly(1L, 3L, 2L);
    site.post("/shortlists/1/entries/1/up");
    assertThat(spots()).containsExactly(1L, 3L, 2L);
    site.post("/shortlists/1/entries/1/down");
    assertThat(spots()).containsExactly(3L, 1L, 2L);
    site.post("/shortlists/1/entries/1/remove");
    assertThat(spots()).containsExactly(3L, 2L);
  }

  @Test
  void wordsAndCoverAreKeptAndAPictureOfAnotherSpotIsRefused() {
    keep("1", "");
    site.post("/shortlists/1/entries/1", "words", "Wide grass", "cover", "2");

    assertThat(list(1).entries().get(0))
        .returns("Wide grass", Shortlist.Entry::words)
        .returns(2L, Shortlist.Entry::coverShotId);
    Long foreign = site.ledger().read(session -> session.shots().ofSpot(2).get(0).id());
    assertThat(
            site.post("/shortlists/1/entries/1", "words", "x", "cover", String.valueOf(foreign))
                .status())
        .isEqualTo(404);
    assertThat(list(1).entries().get(0).words()).isEqualTo("Wide grass");
  }

  @Test
  void anEntryOfAnotherListCanNotBeTouched() {
    keep("1", "");
    site.post("/shortlists", "title", "Other");

    assertThat(site.post("/shortlists/2/entries/1/remove").status()).isEqualTo(404);
    assertThat(list(1).entries()).hasSize(1);
  }

  @ParameterizedTest
  @CsvSource({
    "spot, 99, 404",
    "spot, x, 422",
    "list, 99, 404",
    "light, moonlit, 422",
    "facing, 361, 422",
    "from, soon, 422",
    "cover, 99, 404"
  })
  void whatCanNotBeKeptIsRefusedAndNoEmptyListIsLeft(String field, String value, int status) {
    String[] form = {
      "spot", "1", "list", "", "cover", "", "from", MOMENT[1], "to", MOMENT[3], "light", "backlit",
      "facing", "234"
    };
    for (int i = 0; i < form.length; i += 2) {
      if (form[i].equals(field)) {
        form[i + 1] = value;
      }
    }

    assertThat(site.post("/shortlists/keep", form).status()).isEqualTo(status);
    List<Shortlist> left = site.ledger().read(session -> session.shortlists().all());
    assertThat(left).isEmpty();
  }

  @Test
  void aBlankTitleIsNamed() {
    TestSite.Answer answer = site.post("/shortlists", "title", "   ");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text()).contains("expected some words, found nothing");
  }

  @Test
  void aDeletedListIsGone() {
    keep("1", "");
    site.post("/shortlists/1/delete");

    assertThat(site.get("/shortlists/1").status()).isEqualTo(404);
    assertThat(site.get("/spots/1").status()).isEqualTo(200);
  }
}

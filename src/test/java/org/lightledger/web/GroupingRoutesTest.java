package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Spot;

/** Joins, splits, moves and deletions on the pages, and how each is taken back. */
class GroupingRoutesTest {
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

  private List<Long> spots() {
    return site.ledger().read(session -> session.spots().all()).stream().map(Spot::id).toList();
  }

  private List<Long> shotsOf(long spot) {
    return site.ledger().read(session -> session.shots().ofSpot(spot)).stream()
        .map(shot -> shot.id())
        .toList();
  }

  private GeoPoint position(long spot) {
    return site.ledger().read(session -> session.spots().find(spot)).orElseThrow().position();
  }

  private String follow(TestSite.Answer answer) {
    assertThat(answer.status()).isEqualTo(303);
    String location = answer.header("Location");
    return site.get(location.replaceAll("#.*", "")).text();
  }

  @Test
  void aSplitAndItsWayBack() {
    assertThat(shotsOf(1)).containsExactly(1L, 2L);
    String page = follow(site.post("/spots/1/split", "shots", "2"));

    assertThat(shotsOf(1)).containsExactly(1L);
    assertThat(shotsOf(4)).containsExactly(2L);
    assertThat(page)
        .contains("spot of their own", "Join it back", "action=\"/spots/1/join\"")
        .contains("name=\"other\" value=\"4\"");

    follow(site.post("/spots/1/join", "other", "4"));
    assertThat(spots()).containsExactly(1L, 2L, 3L);
    assertThat(shotsOf(1)).containsExactly(1L, 2L);
  }

  @Test
  void aJoinAndItsWayBack() {
    assertThat(site.get("/spots/1").text()).contains("Spot 2, 443 m N", "Spot 3, 497 m E");
    String page = follow(site.post("/spots/1/join", "other", "3"));

    assertThat(shotsOf(1)).contains(4L);
    assertThat(page)
        .contains("now part of this one", "Split its shots off again")
        .contains("name=\"shots\" value=\"4\"");

    follow(site.post("/spots/1/split", "shots", "4"));
    assertThat(shotsOf(1)).containsExactly(1L, 2L);
  }

  @Test
  void shotsMoveToAnotherSpotAndBack() {
    String page = follow(site.post("/spots/1/move-shots", "shots", "1", "shots", "2", "to", "2"));

    assertThat(shotsOf(2)).contains(1L, 2L);
    assertThat(page)
        .contains("belong to this spot now", "action=\"/spots/2/move-shots\"")
        .contains("name=\"shots\" value=\"1,2\"", "name=\"to\" value=\"1\"");

    follow(site.post("/spots/2/move-shots", "shots", "1,2", "to", "1"));
    assertThat(shotsOf(1)).containsExactly(1L, 2L);
  }

  @Test
  void theOwnersPositionHoldsUntilItIsGivenBack() {
    GeoPoint before = position(1);
    String page = follow(site.post("/spots/1/position", "position", "41.9502,-6.6103"));

    assertThat(position(1)).isEqualTo(new GeoPoint(41.9502, -6.6103));
    assertThat(page).contains("You set its position", "Let its shots say where it is");

    follow(site.post("/spots/1/position/release"));
    assertThat(position(1)).isEqualTo(before);
    assertThat(site.get("/spots/1").text()).doesNotContain("You set its position");
  }

  @Test
  void aDeletedSpotIsListedAndBroughtBack() {
    String list = follow(site.post("/spots/1/delete"));

    assertThat(spots()).containsExactly(2L, 3L);
    assertThat(list).contains("Deleted spots", "deleted just now", "/spots/1/bring-back");
    assertThat(site.get("/spots/1").status()).isEqualTo(404);

    follow(site.post("/spots/1/bring-back"));
    assertThat(shotsOf(1)).containsExactly(1L, 2L);
    assertThat(site.get("/spots").text()).doesNotContain("Deleted spots");
  }

  @ParameterizedTest
  @CsvSource({
    "/spots/1/split, shots, '', expected one or more chosen shots",
    "/spots/1/split, shots, x, 'expected numbers of shots, found'",
    "/spots/1/split, shots, '1,2', expected at least one shot to stay",
    "/spots/1/split, shots, 4, expected shots of spot 1",
    "/spots/1/join, other, 1, expected two spots to join",
    "/spots/1/join, other, 77, expected the number of a spot",
    "/spots/1/join, other, '', expected the number of a spot",
    "/spots/1/move-shots, shots, 1, expected the number of a spot",
    "/spots/1/position, position, '', expected latitude and longitude",
    "/spots/1/position, position, '95,0', expected latitude and longitude",
  })
  void whatCanNotBeDoneIsSaid(String path, String field, String value, String message) {
    TestSite.Answer answer = site.post(path, field, value);

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text()).contains(message);
    assertThat(shotsOf(1)).containsExactly(1L, 2L);
  }

  @Test
  void aSpotOnAShortlistIsNotDeleted() {
    site.post("/shortlists/keep", "spot", "1", "list", "");
    TestSite.Answer answer = site.post("/spots/1/delete");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(answer.text()).contains("take it off them first");
    assertThat(spots()).contains(1L);
  }

  @Test
  void nothingFromTheAddressGetsIntoTheForm() {
    assertThat(site.get("/spots/1?did=split&from=1/../../x%22%3E%3Cscript%3E").text())
        .contains("action=\"/spots//join\"")
        .doesNotContain("<script>x", "../..");
  }

  @Test
  void theJoinDistanceIsKeptAndGoesForLaterImports() {
    assertThat(site.get("/import").text()).contains("name=\"join\" value=\"25\"");
    assertThat(follow(site.post("/import/join-distance", "join", "3.5"))).contains("Saved.", "3.5");
    TestSite.Answer refused = site.post("/import/join-distance", "join", "far");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains("expected a number from 0 to 10000 m", "value=\"far\"");

    site.upload(
        Map.of(
            "five metres on.jpg",
            TestPhotos.shot(
                "2026:11:20 17:00:00",
                "+01:00",
                TestSite.PLACES[1][0] + 0.000045,
                TestSite.PLACES[1][1],
                232.0,
                1)));
    assertThat(spots()).hasSize(4);
  }

  @Test
  void aWatchedFolderIsImportedAsFilesComeInUntilTheWatchIsEnded() throws InterruptedException {
    Path photos = folder.resolve("photos");
    site.post("/import/folder", "folder", photos.toString(), "watch", "yes");
    await("watching for more");

    TestSite.write(
        photos,
        "late.jpg",
        TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.97, -6.61, 232.0, 1));
    await("data-tally=\"added\">1<");
    assertThat(spots()).hasSize(4);

    site.post("/import/jobs/1/cancel");
    assertThat(await("ended; what was read stays")).doesNotContain("every 1s");
  }

  private String await(String words) throws InterruptedException {
    String part = "";
    for (int tries = 0; tries < 300 && !part.contains(words); tries++) {
      Thread.sleep(100);
      part = site.get("/import/jobs/1", "HX-Request", "true").text();
    }
    assertThat(part).contains(words);
    return part;
  }
}

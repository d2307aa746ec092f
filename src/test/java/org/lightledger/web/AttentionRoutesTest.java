package org.lightledger.web;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Shot;
import org.lightledger.store.StoredShot;

class AttentionRoutesTest {
  private static final String GPX =
      "<gpx version=\"1.1\"><trk><trkseg>"
          + "<trkpt lat=\"41.95\" lon=\"-6.61\"><time>2026-11-20T15:59:00Z</time></trkpt>"
          + "<trkpt lat=\"41.95\" lon=\"-6.61\"><time>2026-11-20T16:01:00Z</time></trkpt>"
          + "</trkseg></trk></gpx>";

  @TempDir Path folder;
  private TestSite site;
  private long twice;
  private long unplaced;
  private long another;
  private long undirected;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
    Path more = folder.resolve("more");
    TestSite.write(more, "twice.jpg", TestPhotos.plain("2026:10:25 02:30:00", 41.95, -6.61));
    TestSite.write(more, "unplaced.jpg", TestPhotos.plain("2026:11:20 17:00:00", null, null));
    TestSite.write(more, "unplaced-too.jpg", TestPhotos.plain("2026:11:20 17:00:30", null, null));
    site.importFrom(more);
    twice = site.shotOf(more.resolve("twice.jpg"));
    unplaced = site.shotOf(more.resolve("unplaced.jpg"));
    another = site.shotOf(more.resolve("unplaced-too.jpg"));
    undirected = site.shotOf(folder.resolve("photos").resolve("3-arcade.jpg"));
  }

  @AfterEach
  void close() {
    site.close();
  }

  private StoredShot shot(long id) {
    return site.ledger().read(session -> session.shots().find(id).orElseThrow());
  }

  private List<StoredShot> shots() {
    return List.of(shot(twice), shot(unplaced), shot(another), shot(undirected));
  }

  private TestSite.Answer fix(String group, String fix, String field, String value, long... shots) {
    String[] form = new String[6 + 2 * shots.length];
    System.arraycopy(
        new String[] {"group", group, "fix", fix, group + "-" + field, value}, 0, form, 0, 6);
    for (int i = 0; i < shots.length; i++) {
      form[6 + 2 * i] = "shot";
      form[7 + 2 * i] = String.valueOf(shots[i]);
    }
    return site.post("/attention", form);
  }

  @Test
  void theTrayGroupsShotsByWhatIsMissing() {
    String page = site.get("/attention").text();

    assertThat(page)
        .contains(
            "Time and place are missing",
            "The time is ambiguous",
            "The direction is missing",
            "at UTC+02:00, the earlier moment: 00:30 UTC",
            "at UTC+01:00, the later moment: 01:30 UTC",
            "<option value=\"Europe/Madrid\">",
            "href=\"/shots/" + twice + "\"");
    assertThat(page.indexOf("group-both")).isLessThan(page.indexOf("group-choice"));
    assertThat(page).doesNotContain("group-time", "group-place");
    assertThat(page).contains("<span class=\"count\">3<span class=\"quietly\"> shots</span>");
  }

  @Test
  void anAmbiguousTimeIsChosenAndTakenBack() {
    List<StoredShot> before = shots();

    TestSite.Answer fixed = fix("choice", "choice", "offset", "+02:00", twice);

    assertThat(fixed.status()).isEqualTo(200);
    assertThat(fixed.text()).contains("1 shot fixed", "action=\"/corrections/1/undo\"");
    assertThat(fixed.text()).doesNotContain("The time is ambiguous");
    assertThat(((CaptureTime.Known) shot(twice).shot().time()).instant())
        .isEqualTo("2026-10-25T00:30:00Z");
    assertThat(site.get("/attention").text()).contains("Time at UTC+02:00 chosen: 1 shot");

    TestSite.Answer undone = site.post("/corrections/1/undo");
    assertThat(undone.status()).isEqualTo(303);
    assertThat(undone.header("Location")).isEqualTo("/attention?undone=1");
    assertThat(shots()).isEqualTo(before);
    assertThat(site.get("/attention?undone=1").text()).contains("Undone", "The time is ambiguous");
  }

  @Test
  void allOfAGroupAreFixedAtOnceAndThePartTellsTheNewCount() {
    TestSite.Answer part =
        site.post(
            "/attention",
            List.of("HX-Request", "true"),
            "group",
            "both",
            "fix",
            "point",
            "both-place",
            "41.95, -6.61",
            "all",
            "yes");

    assertThat(part.text())
        .contains("2 shots fixed", "<a href=\"/spots/1\">Spot 1 (2 shots)</a>")
        .contains("<span id=\"waiting-count\" hx-swap-oob=\"true\">")
        .contains("<span class=\"count\">1<span")
        .doesNotContain("<html");
    for (long id : new long[] {unplaced, another}) {
      Shot.Position position = Objects.requireNonNull(shot(id).shot().position());
      assertThat(position.point()).isEqualTo(new GeoPoint(41.95, -6.61));
      assertThat(shot(id).spotId()).isEqualTo(1);
    }
  }

  @Test
  void aTrackLogPlacesWhatItCoversAndTheRestIsToldWhy() {
    TestSite.Answer fixed =
        site.postFile(
            "/attention",
            "place-track",
            GPX.getBytes(UTF_8),
            "group",
            "place",
            "fix",
            "track",
            "place-trackclock",
            "+0:01:45",
            "shot",
            String.valueOf(unplaced),
            "shot",
            String.valueOf(another));

    assertThat(fixed.text())
        .contains("1 shot fixed, 1 not changed", "unplaced-too.jpg", "Place the shot on the map")
        .contains("Camera's clock corrected by +0:01:45, placed by a track log");
    assertThat(shot(unplaced).sun()).isNotNull();
    assertThat(shot(another).shot().position()).isNull();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "no xml at all",
        "<gpx version=\"1.1\"></gpx>",
        "<!DOCTYPE gpx [<!ENTITY x SYSTEM \"file:///etc/hostname\">]><gpx>&x;</gpx>",
        "<gpx><trk><trkseg><trkpt lat=\"NaN\" lon=\"1e999\"><time>never</time></trkpt>"
      })
  void aBrokenTrackLogIsNamedAndChangesNothing(String content) {
    List<StoredShot> before = shots();

    TestSite.Answer refused =
        site.postFile(
            "/attention",
            "place-track",
            content.getBytes(UTF_8),
            "group",
            "place",
            "fix",
            "track",
            "all",
            "yes");

    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains("expected a GPX file", "href=\"#f-place-track\"");
    assertThat(shots()).isEqualTo(before);
  }

  @ParameterizedTest
  @CsvSource({
    "time, zone, zone, Europe/Atlantis, expected a zone such as",
    "time, zone, zone, '', expected a zone such as",
    "time, clock, clock, an hour, expected what to add",
    "time, clock, clock, +9999999:00:00, expected what to add",
    "time, clockof, truth, 2026-11-20T17:00, expected a shot of the list",
    "time, hand, local, yesterday, expected a day and a time",
    "time, hand, local, 2026-02-30T10:00, expected a day and a time",
    "choice, choice, offset, '', expected one of the times listed",
    "choice, choice, offset, +99:00, expected one of the times listed",
    "place, point, place, '91,0', expected latitude and longitude",
    "place, point, place, 'NaN,NaN', expected latitude and longitude",
    "place, point, place, '', expected a click on the map",
    "place, track, track, x, expected a GPX file",
    "way, bearing, bearing, 400, expected a number from 0 to 360",
    "way, bearing, bearing, NaN, expected a number from 0 to 360",
    "way, bearing, bearing, '', expected degrees from true north",
    "way, erase, bearing, 1, expected the button of one of the fixes",
    "way, '', bearing, 1, expected the button of one of the fixes"
  })
  void aBadFieldIsNamedWithWhatWasExpectedAndNothingChanges(
      String group, String fix, String field, String value, String expected) {
    List<StoredShot> before = shots();

    TestSite.Answer refused = fix(group, fix, field, value, twice, unplaced, another, undirected);

    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains(expected);
    assertThat(shots()).isEqualTo(before);
    assertThat(site.get("/attention").text()).doesNotContain("Last correction");
  }

  @Test
  void shotsOfOneFolderThatLackTheSameAreListedUnderOneReason() {
    String page = site.get("/attention").text();

    assertThat(page).containsOnlyOnce("neither an offset nor GPS time nor a place");
    site.importFrom(
        TestSite.folderOf(
            folder.resolve("elsewhere"),
            "third.jpg",
            TestPhotos.plain("2026:11:21 17:00:00", null, null)));
    assertThat(site.get("/attention").text())
        .contains("<span>These 2 shots of more</span>", "<span>1 shot of elsewhere</span>");
  }

  @Test
  void eitherACorrectionOrOneShotsTimeGoesWithATrackLog() {
    List<StoredShot> before = shots();
    String[] form = {
      "group",
      "both",
      "fix",
      "track",
      "all",
      "yes",
      "both-trackclock",
      "-1:00:00",
      "both-trackof",
      String.valueOf(unplaced),
      "both-tracktruth",
      "2026-11-20T17:00:00"
    };

    TestSite.Answer refused = site.postFile("/attention", "both-track", GPX.getBytes(UTF_8), form);

    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains("found both", "<details class=\"wrongclock\" open");
    form[7] = "";
    form[9] = "";
    assertThat(site.postFile("/attention", "both-track", GPX.getBytes(UTF_8), form).text())
        .contains("expected a shot of the list, found nothing");
    assertThat(shots()).isEqualTo(before);
  }

  @Test
  void aTypographersMinusIsAMinus() {
    assertThat(fix("both", "clock", "clock", "\u22121:00:00", unplaced).text())
        .contains("corrected by -1:00:00");
  }

  @Test
  void withoutATickNothingHappens() {
    TestSite.Answer refused = fix("time", "zone", "zone", "Europe/Madrid");

    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("expected one shot or more to be ticked", "value=\"Europe/Madrid\"");
    TestSite.Answer strange =
        site.post(
            "/attention", "group", "time", "fix", "zone", "time-zone", "UTC", "shot", "1; DROP");
    assertThat(strange.status()).isEqualTo(422);
    assertThat(site.post("/attention", "group", "elsewhere").status()).isEqualTo(422);
  }

  @Test
  void aShotThatIsNotInTheLedgerIsToldAndTheOthersAreFixed() {
    TestSite.Answer fixed = fix("way", "bearing", "bearing", "245", undirected, 987654);

    assertThat(fixed.text()).contains("1 shot fixed, 1 not changed", "not in the ledger");
    assertThat(Objects.requireNonNull(shot(undirected).shot().facing()).bearing().trueDeg())
        .isEqualTo(245);
  }

  @Test
  void onlyTheNewestCorrectionIsUndoneAndOnlyByTheOwner() {
    fix("way", "bearing", "bearing", "245", undirected);
    fix("choice", "choice", "offset", "+02:00", twice);
    List<StoredShot> both = shots();

    assertThat(site.post("/corrections/1/undo").status()).isEqualTo(409);
    assertThat(site.post("/corrections/77/undo").status()).isEqualTo(409);
    assertThat(site.post("/corrections/x/undo").status()).isEqualTo(404);
    assertThat(site.post("/corrections/2/undo", List.of("Sec-Fetch-Site", "cross-site")).status())
        .isEqualTo(403);
    assertThat(shots()).isEqualTo(both);
    assertThat(site.post("/corrections/2/undo", "shot", "//evil.example").header("Location"))
        .isEqualTo("/attention?undone=1");
    assertThat(
            site.post("/corrections/1/undo", "shot", String.valueOf(undirected)).header("Location"))
        .isEqualTo("/shots/" + undirected + "?undone=1");
  }

  @Test
  void textThatTriesToBecomeMarkupStaysText() {
    String hostile = HostileTextTest.HOSTILE;
    for (String[] field :
        new String[][] {
          {"time", "zone", "zone"},
          {"time", "clock", "clock"},
          {"time", "hand", "local"},
          {"choice", "choice", "offset"},
          {"place", "point", "place"},
          {"way", "bearing", "bearing"},
          {"way", hostile, "bearing"}
        }) {
      TestSite.Answer refused = fix(field[0], field[1], field[2], hostile, twice);
      assertThat(refused.status()).isEqualTo(422);
      assertThat(refused.text()).as(field[2]).doesNotContain("<probe-x", "\"'>");
    }
  }
}

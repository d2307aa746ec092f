package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.ask.SpotDay;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.MapAdding;
import org.lightledger.skyline.DirectSun;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEventKind;

/** Skylines on the owner's pages, over a real ledger and a real elevation tile. */
class SkyRoutesTest {
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final LocalDate DECEMBER = LocalDate.of(2026, 12, 15);
  private static final String ASKED =
      "/?light=backlit&light=rim&light=side&from=2026-12-15&to=2026-12-15&when=clock&at=16:30"
          + "&until=16:30";

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

  private void addLand() {
    add(TestLand.write(folder.resolve("land")));
  }

  private void add(Path elevation) {
    String path = elevation.toString();
    assertThat(site.post("/surroundings/elevation", "path", path).header("Location"))
        .isEqualTo("/surroundings?did=added");
    awaitSkylines();
  }

  /** Asks until the keeper has nothing left to do. */
  private void awaitSkylines() {
    for (int i = 0; i < 100; i++) {
      site.get("/surroundings");
      if (site.ledger().read(session -> session.skylines().countDue()) == 0) {
        return;
      }
    }
    throw new AssertionError("the skylines are not made");
  }

  private Skyline skyline(long spot) {
    return site.ledger().read(session -> session.skylines().find(spot)).orElseThrow().skyline();
  }

  private Spot spot(long id) {
    return site.ledger().read(session -> session.spots().find(id)).orElseThrow();
  }

  private static String hour(Instant instant) {
    return DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).format(instant.atZone(MADRID));
  }

  @Test
  void withoutASkylineThePageSaysWhatWouldTellIt() {
    assertThat(site.get("/spots/1?day=2026-12-15").text())
        .contains("What stands around this spot is not known")
        .contains("href=\"/surroundings\"", "href=\"#measured\"", "href=\"#shots-head\"")
        .contains("Not known</dt>")
        .doesNotContain("sky-land", "Direct sun</dt>");
  }

  @Test
  void theSilhouetteIsDrawnAndToldInWordsAndBoundsLookDifferent() {
    addLand();
    String page = site.get("/spots/1?day=2026-12-15&at=16:30").text();

    assertThat(page)
        .contains("class=\"sky-land\"", "class=\"sky-land sky-part\"", "class=\"sky-band\"")
        .contains("lower bound: perhaps higher", "skyline, with its uncertainty")
        .contains("p-today p-hidden", "class=\"p-moment\"", "the moment asked for")
        .contains("The skyline in words", "at least ", "The land, at ")
        .doesNotContain("sw-void");
  }

  @Test
  void directSunIsToldWithItsUncertaintyAndBeforeThePublishedSunset() {
    addLand();
    SpotDay day = SpotDay.of(new SpaEphemeris(), spot(1).position(), MADRID, DECEMBER, skyline(1));
    List<DirectSun.Stretch> stretches = day.direct() == null ? List.of() : day.direct().stretches();
    DirectSun.Stretch last = stretches.get(stretches.size() - 1);
    Duration lost = day.lostBeforeSunset().orElseThrow();
    String page = site.get("/spots/1?day=2026-12-15").text();

    assertThat(lost).as("the ridge takes the sun early").isGreaterThan(Duration.ofMinutes(15));
    assertThat(page)
        .contains("Direct sun on Tue 15 Dec 2026", "Direct sun</dt>", "Open shade</dt>")
        .contains(
            hour(last.to())
                + " (between "
                + hour(last.certain().get(last.certain().size() - 1).to())
                + " and "
                + hour(last.latestTo())
                + ")")
        .contains("the sun is gone " + lost.toMinutes() + " minutes")
        .contains(
            "before the published sunset at "
                + hour(day.day().event(SunEventKind.SUNSET).orElseThrow()));
    for (DirectSun.Window shade : day.openShade()) {
      assertThat(page).contains(hour(shade.from()) + " to " + hour(shade.to()));
    }
  }

  @Test
  void polarDaysAndNightsAndDatesThatDoNotExistAreNamed() {
    long north = insert(new GeoPoint(78.22, 15.65), "Arctic/Longyearbyen");
    long samoa = insert(new GeoPoint(-13.83, -171.76), "Pacific/Apia");

    assertThat(site.get("/spots/" + north + "?day=2026-12-21").text()).contains("Polar night");
    assertThat(site.get("/spots/" + north + "?day=2026-06-21").text()).contains("Polar day");
    assertThat(site.get("/spots/" + samoa + "?day=2011-12-30").text())
        .contains("does not exist here");
  }

  private long insert(GeoPoint place, String zone) {
    return site.ledger()
        .write(
            session ->
                session
                    .spots()
                    .insert(
                        new Spot(
                            0, "far away", null, place, ZoneId.of(zone), true, List.of(), "", "")));
  }

  @Test
  void theYearHasAnAreaForEachLightAndATableInWords() {
    addLand();
    String page = site.get("/spots/1?facing=234&year=2027").text();

    assertThat(page)
        .contains("The light of 2027, looking SW 234°", "The year as a table")
        .contains("cal cal-backlit", "cal cal-open-shade", "cal cal-twilight", "cal cal-dark")
        .containsPattern("<tr><th scope=\"row\">Dec</th>(<td>[^<]+</td>)+</tr>")
        .contains("mostly ", "<th scope=\"col\">12:00</th>");
  }

  @Test
  void aPartialUpdateHoldsTheSkyAloneAndBadChoicesAreNamed() {
    assertThat(site.get("/spots/1?day=2026-06-01", "HX-Request", "true").text())
        .startsWith("<div id=\"sky\"")
        .contains("Mon 1 Jun 2026")
        .doesNotContain("<html");
    TestSite.Answer bad = site.get("/spots/1?day=soon&at=25:00&facing=400&year=12");

    assertThat(bad.status()).isEqualTo(422);
    assertThat(bad.text()).contains("4 fields need another look", "found \"soon\"");
    assertThat(site.get("/spots/1?day=2026-03-29&at=02:30").text())
        .contains("expected a time that the clocks of Europe/Madrid show on that day");
  }

  @Test
  void oneTapTellsWhetherTheSunWasOnTheSubject() {
    addLand();
    TestSite.Answer part =
        site.post("/shots/1/sun?word=no&back=spot", List.of("HX-Request", "true"));

    assertThat(part.header("HX-Trigger")).isEqualTo("skyline-changed");
    assertThat(part.text())
        .startsWith("<div class=\"suntap\"")
        .containsPattern("id=\"sun-1-no\"[^>]+aria-pressed=\"true\"");
    assertThat(saidOfShot1()).contains(SunOnSubject.NO);
    assertThat(site.post("/shots/1/sun?word=yes&back=spot").header("Location"))
        .isEqualTo("/spots/1#shot-1");
    assertThat(site.post("/shots/1/sun?word=dappled&back=shot").header("Location"))
        .isEqualTo("/shots/1#sun-said");
    assertThat(site.get("/shots/1").text())
        .containsPattern("id=\"sun-1-dappled\"[^>]+aria-pressed=\"true\"");
    site.post("/shots/1/sun?word=unsaid");
    assertThat(saidOfShot1()).isEmpty();
    assertThat(site.post("/shots/1/sun?word=maybe").status()).isEqualTo(422);
    assertThat(site.post("/shots/99/sun?word=yes").status()).isEqualTo(404);
  }

  private Optional<SunOnSubject> saidOfShot1() {
    return site.ledger().read(session -> session.skylines().sunOnSubjectOf(1));
  }

  @Test
  void whatAShotSaysAgainstTheModelStandsOnThePage() {
    addLand();
    site.post("/shots/1/sun?word=no&back=spot");
    awaitSkylines();

    assertThat(site.get("/spots/1").text())
        .contains("What to mind about this skyline")
        .contains("Shot 1 shows shade with the sun", "what shots prove");
  }

  @Test
  void readingsAreTypedPastedUploadedAndDeleted() {
    assertThat(
            site.post(
                    "/spots/1/measured",
                    "azimuth",
                    "200",
                    "altitude",
                    "3,5",
                    "azimuth",
                    "",
                    "altitude",
                    "",
                    "azimuth",
                    "250",
                    "altitude",
                    "6")
                .header("Location"))
        .isEqualTo("/spots/1?measured=1#measured");
    assertThat(measured())
        .containsExactly(new MeasuredSkyline.Point(200, 3.5), new MeasuredSkyline.Point(250, 6));
    awaitSkylines();
    assertThat(site.get("/spots/1").text())
        .contains("value=\"3.5\"", "Delete 2 readings", "what you measured")
        .contains("A compass needle points");

    site.postFile(
        "/spots/1/measured/list",
        "file",
        "a,b\n10,1\n20,2\n30,3\n".getBytes(StandardCharsets.UTF_8));
    assertThat(measured()).hasSize(3);
    site.post("/spots/1/measured/list", "list", "90,4\n180,5");
    assertThat(measured()).hasSize(2);
    site.post("/spots/1/measured/remove");
    assertThat(measured()).isEmpty();
  }

  private List<MeasuredSkyline.Point> measured() {
    return site.ledger().read(session -> session.skylines().measured(1));
  }

  @Test
  void badReadingsTeachAndWhatWasTypedStays() {
    TestSite.Answer rows =
        site.post(
            "/spots/1/measured",
            "azimuth",
            "400",
            "altitude",
            "5",
            "azimuth",
            "wide",
            "altitude",
            "7");
    assertThat(rows.status()).isEqualTo(422);
    assertThat(rows.text())
        .contains("expected an azimuth in [0, 360) degrees, found 400.0", "found \"wide\"")
        .contains("value=\"wide\"", "href=\"#f-azimuth-1\"");

    TestSite.Answer list = site.post("/spots/1/measured/list", "list", "10,1\n20;2\nx,y");
    assertThat(list.status()).isEqualTo(422);
    assertThat(list.text()).contains("line 2: ", "line 3: ", "20;2\nx,y</textarea>");

    assertThat(site.post("/spots/1/measured", "azimuth", "10", "altitude", "1").text())
        .contains("expected at least 2 points of azimuth and altitude, found 1");
    assertThat(site.post("/spots/1/measured/list", "list", " ").status()).isEqualTo(422);
    assertThat(measured()).isEmpty();
  }

  @Test
  void anAnswerTellsWhetherTheSunReachesTheSpotAndUntilWhen() {
    assertThat(site.get(ASKED).text()).contains("reach-not-known", "Direct sun: not known");
    addLand();
    String page = site.get(ASKED).text();

    assertThat(page)
        .containsPattern("<strong>Direct sun until 1[67]:[0-9]{2}</strong>")
        .containsPattern("[0-9.]+° \\(± [0-9.]+°\\) above the land")
        .contains("href=\"/spots/1?day=2026-12-15&amp;at=16:30&amp;facing=234#sun-head\"");
    assertThat(
            site.get(ASKED.replace("16:30", "17:40").replace("light=backlit", "light=open-shade"))
                .text())
        .contains("<strong>Open shade</strong>", "reach-shade", "behind the land");
  }

  @Test
  void anAnswerTooCloseToTellPromisesNothing() {
    Instant moment = DECEMBER.atTime(16, 30).atZone(MADRID).toInstant();
    double sunDeg = new SpaEphemeris().direction(moment, spot(1).position()).apparentAltitudeDeg();
    measure(sunDeg - 0.5);

    assertThat(site.get(ASKED).text())
        .contains("above the skyline you measured: too close to tell", "reach-not-known")
        .containsPattern(
            "<strong>Direct sun not certain; as modelled until 1[67]:[0-9]{2}</strong>")
        .containsPattern("too close to tell; as modelled, direct sun until 1[67]:[0-9]{2}")
        .doesNotContain("Direct sun until", "reach-direct");

    measure(sunDeg + 0.5);
    assertThat(site.get(ASKED.replace("light=backlit", "light=open-shade")).text())
        .contains("behind the skyline you measured: too close to tell")
        .contains("<strong>Open shade not certain</strong>")
        .doesNotContain("reach-shade");
  }

  /** A skyline of one height in the south and the west. */
  private void measure(double altitudeDeg) {
    String list = String.format(Locale.ROOT, "170,%.2f%n290,%.2f", altitudeDeg, altitudeDeg);
    site.post("/spots/1/measured/list", "list", list);
    awaitSkylines();
  }

  @Test
  void aShortlistKeepsTheWindowThatTheSkylineLeavesAndTheClientReadsNoMore() {
    addLand();
    String page = site.get(ASKED).text();
    Matcher keep =
        Pattern.compile(
                "name=\"spot\" value=\"1\">\\s*<input type=\"hidden\" name=\"from\""
                    + " value=\"([^\"]+)\">\\s*<input type=\"hidden\" name=\"to\" value=\"([^\"]+)\"")
            .matcher(page);
    assertThat(keep.find()).isTrue();
    String until = keep.group(2).substring(11, 16);
    site.post(
        "/shortlists/keep",
        "spot",
        "1",
        "list",
        "",
        "light",
        "backlit",
        "facing",
        "234",
        "from",
        keep.group(1),
        "to",
        keep.group(2));
    String client = site.get("/shortlists/1/preview").text();

    assertThat(page).contains("Direct sun until " + until);
    assertThat(client)
        .contains("to " + until, "The sun is behind you")
        .doesNotContain("skyline", "hgt", "41.95");
  }

  @Test
  void surroundingsListMapsAndRemoveThem() throws Exception {
    Path map = folder.resolve("village.osm");
    Files.writeString(
        map,
        "<osm version=\"0.6\">"
            + "<node id=\"1\" lat=\"41.9498\" lon=\"-6.6104\"/>"
            + "<node id=\"2\" lat=\"41.9498\" lon=\"-6.6102\"/>"
            + "<node id=\"3\" lat=\"41.9502\" lon=\"-6.6102\"/>"
            + "<node id=\"4\" lat=\"41.9502\" lon=\"-6.6104\"/>"
            + "<way id=\"5\"><nd ref=\"1\"/><nd ref=\"2\"/><nd ref=\"3\"/><nd ref=\"4\"/>"
            + "<nd ref=\"1\"/><tag k=\"building\" v=\"yes\"/><tag k=\"height\" v=\"12\"/></way>"
            + "</osm>");
    new MapAdding(site.ledger(), site.clock()).add(map);
    awaitSkylines();

    assertThat(site.get("/surroundings").text()).contains("village.osm", "1 building or tree");
    assertThat(site.get("/spots/1").text()).contains("buildings in ", "Buildings, at ");
    assertThat(site.post("/surroundings/maps/1/remove").status()).isEqualTo(303);
    awaitSkylines();
    assertThat(site.get("/surroundings").text()).doesNotContain("village.osm");
    assertThat(site.get("/spots/1").text()).doesNotContain("Buildings, at ");
  }

  @Test
  void surroundingsListElevationAndTeach() throws Exception {
    assertThat(site.get("/surroundings").text())
        .contains("None yet", "Something is known of the skyline of 0 of 3 spots.");
    assertThat(site.post("/surroundings/elevation", "path", "land").text())
        .contains("expected the full path of a file or folder that exists");
    Path empty = Files.createDirectories(folder.resolve("nothing"));
    assertThat(site.post("/surroundings/elevation", "path", empty.toString()).text())
        .contains("expected .hgt, .hgt.zip, .tif or .tiff files, found none");
    TestSite.write(empty, "N41W007.hgt", new byte[] {1, 2, 3});
    assertThat(site.post("/surroundings/elevation", "path", empty.toString()).status())
        .isEqualTo(422);

    Path tile = TestLand.tile(folder.resolve("land"));
    add(tile);
    assertThat(site.get("/surroundings?did=added").text())
        .contains("N41W007.hgt", "Something is known of the skyline of 3 of 3 spots.");
    assertThat(site.post("/surroundings/elevation", "path", tile.toString()).header("Location"))
        .isEqualTo("/surroundings?did=known");
    Files.delete(tile);
    site.post("/spots/1/measured/list", "list", "90,4\n180,5");
    String page = site.get("/surroundings").text();
    assertThat(page).contains("is not there", "Skylines are not worked out now");
    assertThat(site.get(ASKED).text()).contains("Skylines are not worked out now");
    assertThat(site.get("/spots/1").text()).contains("Skylines are not worked out now");

    assertThat(site.post("/surroundings/elevation/1/remove").header("Location"))
        .isEqualTo("/surroundings?did=removed");
    awaitSkylines();
    assertThat(site.get("/surroundings").text()).contains("None yet").doesNotContain("not worked");
    assertThat(site.post("/surroundings/elevation/1/remove").status()).isEqualTo(404);
  }
}

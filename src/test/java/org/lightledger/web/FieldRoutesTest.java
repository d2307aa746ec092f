package org.lightledger.web;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.field.FieldEntry;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.SunCare;
import org.lightledger.session.PackItem;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.Hazard;
import org.lightledger.store.MapSamples;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SpaEphemeris;

/** The day's plan for a phone, and what the phone sends back, over real HTTP. */
class FieldRoutesTest {
  private static final Pattern INLINE_CODE =
      Pattern.compile("<script(?![^>]*\\ssrc=)|\\son[a-z]+\\s*=|\\sstyle\\s*=|<style", 2);
  private static final ObjectMapper JSON = new ObjectMapper();

  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = FieldSite.open(folder);
  }

  @AfterEach
  void close() {
    site.close();
  }

  private String now() {
    return String.valueOf(site.clock().instant().toEpochMilli());
  }

  private TestSite.Answer shot(UUID id, byte[] picture, String... more) {
    String[] form = new String[more.length + 4];
    form[0] = "id";
    form[1] = id.toString();
    form[2] = "made";
    form[3] = now();
    System.arraycopy(more, 0, form, 4, more.length);
    return site.postFile("/field/shots", "file", picture, form);
  }

  private TestSite.Answer tick(UUID id, long item, boolean done, Instant made, Instant taken) {
    return site.post(
        "/field/ticks",
        "id",
        id.toString(),
        "made",
        String.valueOf(made.toEpochMilli()),
        "taken",
        String.valueOf(taken.toEpochMilli()),
        "session",
        "1",
        "item",
        String.valueOf(item),
        "done",
        done ? "yes" : "");
  }

  private static JsonNode json(TestSite.Answer answer) {
    try {
      return JSON.readTree(answer.body());
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private List<FieldEntry> entries() {
    return site.ledger().read(session -> session.field().all());
  }

  private Optional<SunOnSubject> word(long shotId) {
    return site.ledger().read(session -> session.skylines().sunOnSubjectOf(shotId));
  }

  @Test
  void aSunTooCloseToTellAtAStopIsNotPromised() {
    double sunDeg =
        new SpaEphemeris()
            .direction(
                FieldSite.at("16:10"), new GeoPoint(TestSite.PLACES[0][0], TestSite.PLACES[0][1]))
            .apparentAltitudeDeg();
    site.post(
        "/spots/1/measured/list",
        "list",
        String.format(Locale.ROOT, "170,%.2f%n290,%.2f", sunDeg - 0.6, sunDeg - 0.6));
    for (int i = 0; i < 100 && due() > 0; i++) {
      site.get("/surroundings");
    }

    assertThat(site.get("/field").text())
        .containsPattern("Direct sun not certain; as modelled it ends 16:1[0-9]")
        .doesNotContain("Direct sun ends");
    assertThat(site.get("/sessions/1/call-sheet").text())
        .containsPattern("Direct sun</dt> <dd>not certain; as modelled until 16:1[0-9]");
  }

  private long due() {
    return site.ledger().read(session -> session.skylines().countDue());
  }

  private long shots() {
    return site.ledger().read(session -> session.shots().counts().all());
  }

  private boolean packed(long item) {
    return site.ledger().<List<PackItem>>read(session -> session.packing().items(1)).stream()
        .anyMatch(one -> one.id() == item && one.doneAt() != null);
  }

  @Test
  void thePageTellsThePlanOfTheDay() {
    TestSite.Answer answer = site.get("/field");

    assertThat(answer.text())
        .contains(
            "Berta, Wed 25 Nov 2026",
            "16:00",
            "At the fountain",
            "geo:41.951000,-6.609000",
            "16:10 to 16:50",
            "SW 232°",
            "Change to outfit 2, 16:50 to 16:55",
            "Backlit",
            "Direct sun: not known here",
            "EV100",
            "Drive 10 min, an estimate",
            "Railway tracks.",
            Hazard.RAILWAY.advice(),
            Hazard.RULES_FIRST,
            SunCare.WARNING,
            "Batteries charged, and spares",
            "0 of 7 packed",
            "M: meeting spot; 1: ")
        .doesNotContain("PRIVATE", "Alonso");
    assertThat(site.get("/field?session=1").status()).isEqualTo(200);
    assertThat(site.get("/field?session=9").status()).isEqualTo(404);
    assertThat(site.get("/field/ground?session=1").status()).isEqualTo(404);
  }

  @Test
  void thePageKeepsToTheStrictPolicyAndAloneMayAskWhereThePhoneIs() {
    TestSite.Answer page = site.get("/field?session=1");

    assertThat(INLINE_CODE.matcher(page.text()).find()).isFalse();
    assertThat(page.header("Content-Security-Policy"))
        .contains("script-src 'self'")
        .doesNotContain("unsafe");
    assertThat(page.header("Permissions-Policy")).contains("geolocation=(self)", "camera=()");
    for (String other : List.of("/", "/spots/1", "/field/package", "/sessions/1")) {
      assertThat(site.get(other).header("Permissions-Policy")).contains("geolocation=()");
    }
  }

  @Test
  void allThatThePageAsksAPhoneToKeepIsThere() {
    String page = site.get("/field").text();
    var keep = Pattern.compile("data-keep=\"([^\"]+)\"").matcher(page);
    assertThat(keep.find()).isTrue();
    String[] addresses = keep.group(1).split(" ");

    assertThat(addresses).hasSizeGreaterThan(8);
    for (String address : addresses) {
      assertThat(site.get(address).status()).as(address).isEqualTo(200);
    }
    assertThat(json(site.get("/field/package?session=1")).get("spots")).hasSize(3);
    assertThat(site.get("/field-worker.js").header("Content-Type")).startsWith("text/javascript");
  }

  /** One picture of the land, twice as fine as it is shown; no tiles. */
  @Test
  void theSmallMapNeedsNoTiles() throws IOException {
    site.ledger().change(session -> MapSamples.add(session, 1));

    String page = site.get("/field").text();
    TestSite.Answer answer = site.get("/field/ground?session=1");
    BufferedImage land = ImageIO.read(new ByteArrayInputStream(answer.body()));

    assertThat(page)
        .contains("<image href=\"/field/ground?session=1\"", " /field/ground?session=1\"")
        .doesNotContain("/tiles/");
    assertThat(answer.header("Content-Type")).isEqualTo("image/png");
    assertThat(land.getWidth()).isEqualTo(1280);
    assertThat(land.getHeight()).isEqualTo(960);
  }

  @Test
  void withoutASessionTheSpotsAreTakenAlong() {
    site.post("/sessions/1/state", "state", "CANCELLED");

    assertThat(site.get("/field").text()).contains("no session", "No session is to come");
    assertThat(json(site.get("/field/package")).get("spots")).hasSize(3);
  }

  /** The icons are what the project draws; pixels may differ by the rounding of a Java version. */
  @Test
  void thePageCanBeInstalledWithIconsOfItsOwn() throws IOException {
    JsonNode manifest = json(site.get("/field/manifest"));

    assertThat(manifest.get("start_url").asText()).isEqualTo("/field");
    assertThat(manifest.get("display").asText()).isEqualTo("standalone");
    assertThat(manifest.get("icons")).hasSize(2);
    for (JsonNode icon : manifest.get("icons")) {
      TestSite.Answer answer = site.get(icon.get("src").asText());
      BufferedImage picture = ImageIO.read(new ByteArrayInputStream(answer.body()));
      int size = picture.getWidth();
      assertThat(icon.get("sizes").asText()).isEqualTo(size + "x" + picture.getHeight());
      assertThat(answer.header("Content-Type")).isEqualTo("image/png");
      BufferedImage drawn = FieldIcon.draw(size);
      long different = 0;
      for (int i = 0; i < size * size; i++) {
        different += picture.getRGB(i % size, i / size) == drawn.getRGB(i % size, i / size) ? 0 : 1;
      }
      assertThat(different).isLessThan(size * size / 100);
    }
  }

  @Test
  void aShotThatIsSentAgainIsOneShot() throws IOException {
    long before = shots();
    UUID id = UUID.randomUUID();
    byte[] photo = FieldSite.photo();

    TestSite.Answer first = shot(id, photo, "word", "yes");
    TestSite.Answer again = shot(id, photo, "word", "yes");

    assertThat(first.status()).as(first.text()).isEqualTo(200);
    assertThat(json(first).get("outcome").asText()).isEqualTo("added");
    assertThat(again.text()).isEqualTo(first.text());
    assertThat(shots()).isEqualTo(before + 1);
    assertThat(entries()).hasSize(1);
    long shotId = json(first).get("shotId").asLong();
    assertThat(word(shotId)).contains(SunOnSubject.YES);
    List<String> files = site.filesIn("imported");
    assertThat(files).hasSize(1);
    assertThat(Files.readAllBytes(site.ledgerFolder().resolve("imported").resolve(files.get(0))))
        .isEqualTo(photo);
  }

  @Test
  void aShotThatTheLedgerHasIsKnownAndNoWordIsLost() {
    byte[] photo = FieldSite.photo();
    shot(UUID.randomUUID(), photo, "word", "yes");
    long before = shots();

    JsonNode same = json(shot(UUID.randomUUID(), photo, "word", "no"));

    assertThat(same.get("outcome").asText()).isEqualTo("known");
    assertThat(same.get("told").asText()).contains("already says \"direct sun\"", "\"shade\"");
    assertThat(shots()).isEqualTo(before);
    assertThat(entries().stream().map(FieldEntry::said)).containsExactly("direct sun", "shade");
    assertThat(site.filesIn("imported")).hasSize(1);
  }

  @Test
  void aShotWithoutAPlaceIsPutWhereThePhoneStood() {
    byte[] photo = TestPhotos.plain("2026:11:25 16:20:00", null, null);
    String latitude = String.valueOf(TestSite.PLACES[0][0]);
    String longitude = String.valueOf(TestSite.PLACES[0][1]);

    JsonNode told =
        json(shot(UUID.randomUUID(), photo, "lat", latitude, "lon", longitude, "word", "unsaid"));

    StoredShot stored =
        site.ledger()
            .read(session -> session.shots().find(told.get("shotId").asLong()).orElseThrow());
    assertThat(told.get("told").asText()).contains("placed where the phone stood");
    assertThat(stored.spotId()).isEqualTo(1L);
    assertThat(stored.shot().needsAttention()).isFalse();
    assertThat(word(stored.id())).isEmpty();
  }

  @Test
  void whatIsNoPictureStaysOnThePhone() {
    TestSite.Answer answer = shot(UUID.randomUUID(), "no picture".getBytes(UTF_8), "word", "yes");

    assertThat(answer.status()).isEqualTo(422);
    assertThat(entries()).isEmpty();
    assertThat(site.filesIn("imported")).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "7", "1-1-1-1-1", "0f9c2f0e-93b1-4e0e-8a51-3d1b5f1c7a1!"})
  void anEntryWithoutAProperNameIsRefused(String id) {
    String[] form = {"id", id, "made", "1", "taken", "1", "session", "1", "item", "1"};
    assertThat(site.post("/field/ticks", form).status()).isEqualTo(422);
    assertThat(site.post("/field/shots", "id", id, "made", "1").status()).isEqualTo(422);
    assertThat(entries()).isEmpty();
  }

  @Test
  void theLaterOfTwoTicksCountsAndTheOtherIsKept() {
    Instant taken = site.clock().instant();
    UUID early = UUID.randomUUID();
    Instant onThePhone = taken.plusSeconds(600);
    site.clock().advance(Duration.ofHours(1));
    site.post("/sessions/1/items/1/tick", "done", "yes");
    site.post("/sessions/1/items/1/tick", "done", "no");
    site.clock().advance(Duration.ofHours(1));

    TestSite.Answer late = tick(early, 1, true, onThePhone, taken);
    assertThat(json(late).get("outcome").asText()).isEqualTo("superseded");
    assertThat(json(late).get("told").asText())
        .isEqualTo(
            "A later word counts: the ledger had \"not packed\" since Wed 25 Nov 2026, 12:00."
                + " Yours is kept beside it.");
    assertThat(packed(1)).isFalse();

    JsonNode later = json(tick(UUID.randomUUID(), 1, true, taken.plusSeconds(5400), taken));
    assertThat(later.get("outcome").asText()).isEqualTo("taken");
    assertThat(later.get("told").asText()).startsWith("Yours was later and counts; the ledger had");
    assertThat(packed(1)).isTrue();

    site.post("/sessions/1/items/1/tick", "done", "no");
    assertThat(tick(early, 1, true, onThePhone, taken).text()).isEqualTo(late.text());
    assertThat(packed(1)).isFalse();
    assertThat(entries().stream().map(FieldEntry::said))
        .containsExactly("packed: thing 1 of session 1", "packed: thing 1 of session 1");
  }

  @Test
  void theAnswerToATickTellsWhatTheLedgerHasNowAndSince() {
    Instant taken = site.clock().instant();
    UUID id = UUID.randomUUID();
    JsonNode first = json(tick(id, 1, true, taken.plus(Duration.ofDays(6)), taken));
    assertThat(first.get("packed").asBoolean(false)).isTrue();
    assertThat(first.get("asOf").asLong()).isEqualTo(taken.toEpochMilli());

    site.clock().advance(Duration.ofHours(1));
    site.post("/sessions/1/items/1/tick", "done", "no");
    site.clock().advance(Duration.ofHours(1));
    JsonNode again = json(tick(id, 1, true, taken.plus(Duration.ofDays(6)), taken));
    assertThat(again.get("outcome").asText()).isEqualTo("taken");
    assertThat(again.get("packed").asBoolean(true)).isFalse();
    assertThat(again.get("asOf").asLong()).isEqualTo(taken.plusSeconds(7200).toEpochMilli());

    site.post("/sessions/1/items/1/remove");
    assertThat(json(tick(id, 1, true, taken, taken)).get("packed").isNull()).isTrue();
  }

  @Test
  void aTickOfSomethingThatWasTakenOffIsKeptAndSaid() {
    site.post("/sessions/1/items/2/remove");

    JsonNode told =
        json(tick(UUID.randomUUID(), 2, true, site.clock().instant(), site.clock().instant()));

    assertThat(told.get("outcome").asText()).isEqualTo("gone");
    assertThat(entries()).hasSize(1);
  }

  /** A warning that gets lost is worse than none. */
  @Test
  void joiningAndBringingBackASpotLosesNoHazard() {
    site.ledger().change(session -> session.hazards().set(3, Set.of(Hazard.ROAD)));
    site.post("/spots/3/delete");
    assertThat(hazards(3)).isEmpty();
    site.post("/spots/3/bring-back");
    assertThat(hazards(3)).containsExactly(Hazard.ROAD);

    assertThat(site.post("/spots/1/join", "other", "3").status()).isEqualTo(303);
    assertThat(hazards(1)).containsExactly(Hazard.RAILWAY, Hazard.ROAD, Hazard.WATER);
  }

  private Set<Hazard> hazards(long spot) {
    return site.ledger().read(session -> session.hazards().of(spot));
  }

  @Test
  void hazardsAreTickedOnTheSpotsPageAndToldOnAnswersPlansAndShares() {
    site.post("/spots/1", "name", "Mill", "cautions", "Mud.", "hazard", "drop", "hazard", "permit");

    assertThat(site.ledger().<Set<Hazard>>read(session -> session.hazards().of(1)))
        .containsExactly(Hazard.DROP, Hazard.PERMIT);
    assertThat(site.get("/spots/1").text())
        .contains("Cliff or drop.", Hazard.PERMIT.advice(), "value=\"drop\" checked");
    assertThat(site.post("/spots/1", "name", "Mill", "hazard", "bears").status()).isEqualTo(422);
    assertThat(site.get("/?light=backlit&from=2026-11-25&when=clock&at=16:30").text())
        .contains("Cliff or drop, permit needed", SunCare.WARNING);
    assertThat(site.get("/sessions/1").text()).contains(Hazard.DROP.advice(), SunCare.WARNING);
    site.post("/shortlists", "title", "Autumn");
    site.post("/shortlists/keep", "spot", "1", "list", "1");
    assertThat(site.get("/shortlists/1/preview").text())
        .contains(Hazard.DROP.clientWords(), "Mud.");
  }
}

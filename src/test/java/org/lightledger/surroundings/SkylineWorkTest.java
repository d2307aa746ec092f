package org.lightledger.surroundings;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.Samples;
import org.lightledger.store.StoredSkyline;
import org.lightledger.sun.SunDirection;

/** On real elevation files and a real ledger. */
class SkylineWorkTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T10:00:00Z"), ZoneOffset.UTC);

  /** In the middle of tile N41W007, five kilometres east of the ridge. */
  private static final GeoPoint SPOT = new GeoPoint(41.5, -6.5);

  private static final int POSTS = 1201;
  private static final int RIDGE_COLUMN = 600 - 72;
  private static final int RIDGE_M = 500;
  private static final int WEST_STEP = 540;
  private static final int EAST_STEP = 180;

  @TempDir Path folder;
  private Ledger ledger;
  private SkylineWork work;
  private Path tile;

  @BeforeEach
  void open() throws IOException {
    ledger = Ledger.open(folder.resolve("ledger"), CLOCK);
    work = new SkylineWork(ledger, CLOCK);
    tile = Files.createDirectories(folder.resolve("elevation")).resolve("N41W007.hgt");
    ByteBuffer posts = ByteBuffer.allocate(POSTS * POSTS * 2);
    for (int row = 0; row < POSTS; row++) {
      posts.putShort((row * POSTS + RIDGE_COLUMN) * 2, (short) RIDGE_M);
    }
    Files.write(tile, posts.array());
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  @Test
  void aLedgerWithoutSourcesHasNothingToMake() {
    spotAt(SPOT);

    assertThat(work.waiting()).isZero();
    assertThat(makeDue()).isZero();
  }

  @Test
  void everySpotGetsTheSkylineOfTheLand() {
    long spot = spotAt(SPOT);
    addTile();

    assertThat(work.waiting()).isEqualTo(1);
    assertThat(makeDue()).isEqualTo(1);
    assertThat(work.waiting()).isZero();
    Skyline skyline = stored(spot).skyline();
    assertThat(skyline.source(WEST_STEP)).isEqualTo(SkylineSource.TERRAIN);
    double distanceM = 72 * 3.0 / 3600 * Math.PI / 180 * 6_385_000 * Math.cos(Math.toRadians(41.5));
    assertThat(skyline.altitudeDeg(WEST_STEP))
        .as("500 m over 5 km, less the earth's curve and the eye's height")
        .isCloseTo(Math.toDegrees(Math.atan(498.4 / distanceM)) - 0.02, within(0.03));
    assertThat(makeDue()).as("nothing changed").isZero();
  }

  @Test
  void aSpotThatMovesIsMadeAnew() {
    long spot = spotAt(SPOT);
    addTile();
    makeDue();
    Skyline before = stored(spot).skyline();

    ledger.change(
        session -> session.spots().move(spot, new GeoPoint(41.5, -6.52), ZoneId.of("UTC")));

    assertThat(stored(spot).due()).isTrue();
    assertThat(makeDue()).isEqualTo(1);
    assertThat(stored(spot).skyline().altitudeDeg(WEST_STEP))
        .isGreaterThan(before.altitudeDeg(WEST_STEP) + 1);
  }

  @Test
  void whatIsMeasuredStandsBeforeWhatIsWorkedOut() {
    long spot = spotAt(SPOT);
    addTile();
    makeDue();

    ledger.change(
        session ->
            session
                .skylines()
                .measure(
                    spot,
                    List.of(
                        new MeasuredSkyline.Point(268, 3.0), new MeasuredSkyline.Point(272, 3.0))));

    assertThat(makeDue()).isEqualTo(1);
    Skyline skyline = stored(spot).skyline();
    assertThat(skyline.source(WEST_STEP)).isEqualTo(SkylineSource.MEASURED);
    assertThat(skyline.altitudeDeg(WEST_STEP)).isCloseTo(3.0, within(1e-6));
    assertThat(skyline.source(WEST_STEP - 20)).isEqualTo(SkylineSource.TERRAIN);
    ledger.change(session -> session.skylines().measure(spot, List.of()));
    makeDue();
    assertThat(stored(spot).skyline().source(WEST_STEP)).isEqualTo(SkylineSource.TERRAIN);
  }

  @Test
  void onePointIsNoSkyline() {
    long spot = spotAt(SPOT);

    assertThatThrownBy(
            () ->
                ledger.change(
                    session ->
                        session
                            .skylines()
                            .measure(spot, List.of(new MeasuredSkyline.Point(268, 3.0)))))
        .hasMessageContaining("at least 2 points");
    assertThat(work.waiting()).isZero();
  }

  @Test
  void elevationThatIsGoneLeavesTheSkylinesAsTheyAreAndSaysSo() throws IOException {
    long spot = spotAt(SPOT);
    addTile();
    makeDue();
    Skyline before = stored(spot).skyline();
    ledger.change(
        session -> session.spots().move(spot, new GeoPoint(41.5, -6.52), ZoneId.of("UTC")));
    Files.delete(tile);

    assertThatThrownBy(this::makeDue)
        .isInstanceOf(UnreadableElevationException.class)
        .hasMessageContaining("N41W007.hgt")
        .hasMessageContaining("terrain remove");
    assertThat(stored(spot).skyline()).isEqualTo(before);
    assertThat(stored(spot).due()).isTrue();

    ledger.change(session -> session.elevation().remove(session.elevation().all().get(0).id()));
    makeDue();
    assertThat(stored(spot).skyline()).isEqualTo(Skyline.notKnown());
  }

  @Test
  void theKeeperTakesChangesIn() {
    long spot = spotAt(SPOT);
    try (SkylineKeeper keeper = new SkylineKeeper(ledger, work).start()) {
      addTile();
      assertThat(keeper.settle(Duration.ofSeconds(20))).isTrue();
      assertThat(stored(spot).due()).isFalse();
      assertThat(stored(spot).skyline().altitudeDeg(WEST_STEP)).isGreaterThan(5);
      assertThat(keeper.problem()).isNull();
    }
  }

  /** Memory that ran out once says nothing of the next time. */
  @Test
  void theKeeperGoesOnAfterAnErrorAndTellsIt() throws InterruptedException {
    AtomicInteger tries = new AtomicInteger();
    SkylineWork scarce =
        new SkylineWork(
            ledger,
            new Clock() {
              @Override
              public Instant instant() {
                if (tries.getAndIncrement() == 0) {
                  throw new OutOfMemoryError("of the test");
                }
                return CLOCK.instant();
              }

              @Override
              public ZoneId getZone() {
                return CLOCK.getZone();
              }

              @Override
              public Clock withZone(ZoneId zone) {
                return CLOCK.withZone(zone);
              }
            });
    long spot = spotAt(SPOT);
    addTile();
    try (SkylineKeeper keeper = new SkylineKeeper(ledger, scarce).start()) {
      List<String> told = new ArrayList<>();
      for (int tick = 0; tick < 400 && !isMade(spot); tick++) {
        Thread.sleep(50);
        Optional.ofNullable(keeper.problem()).ifPresent(told::add);
      }

      assertThat(isMade(spot)).isTrue();
      assertThat(told).isNotEmpty().allMatch(problem -> problem.contains("of the test"));
    }
  }

  @Test
  void theOwnersWordOnAShotBoundsTheSkylineAndIsTold() {
    long spot = spotAt(SPOT);
    long other = spotAt(new GeoPoint(41.6, -6.5));
    addTile();
    makeDue();
    long shade = shotAt(spot, 1, Samples.sun(90, 30));

    say(shade, SunOnSubject.NO);

    assertThat(stored(spot).due()).isTrue();
    assertThat(stored(other).due()).as("nothing was seen there").isFalse();
    assertThat(makeDue()).isEqualTo(1);
    Skyline skyline = stored(spot).skyline();
    assertThat(skyline.source(EAST_STEP)).isEqualTo(SkylineSource.SHOT);
    assertThat(skyline.altitudeDeg(EAST_STEP)).isCloseTo(30 - 0.27, within(0.02));
    assertThat(stored(spot).remarks())
        .singleElement()
        .asString()
        .contains("shot " + shade + " shows shade", "at least 29.7");

    long sunny = shotAt(spot, 2, Samples.sun(90, 10));
    say(sunny, SunOnSubject.YES);
    makeDue();
    assertThat(stored(spot).skyline().source(EAST_STEP))
        .as("shots that exclude each other prove nothing")
        .isEqualTo(SkylineSource.TERRAIN);
    assertThat(stored(spot).remarks())
        .singleElement()
        .asString()
        .contains("shot " + sunny, "shot " + shade, "check the clock");

    say(sunny, SunOnSubject.DAPPLED);
    say(shade, null);
    makeDue();
    assertThat(stored(spot).remarks()).isEmpty();
  }

  @Test
  void aWordOnNoShotIsRefused() {
    assertThatThrownBy(() -> say(99, SunOnSubject.YES)).hasMessageContaining("shot");
  }

  private long shotAt(long spot, int number, SunDirection sun) {
    return ledger.write(
        session ->
            session
                .shots()
                .insert(Samples.shot(SPOT, CLOCK.instant()), Samples.sha256(number), sun, spot));
  }

  private void say(long shot, @Nullable SunOnSubject sun) {
    ledger.change(session -> session.skylines().setSunOnSubject(shot, sun));
  }

  private long spotAt(GeoPoint place) {
    return ledger.write(
        session ->
            session
                .spots()
                .insert(
                    new Spot(0, "a spot", null, place, ZoneId.of("UTC"), true, List.of(), "", "")));
  }

  private void addTile() {
    ledger.change(session -> session.elevation().add(tile, CLOCK.instant()));
  }

  private long makeDue() {
    return work.makeDue(made -> {}, () -> false);
  }

  private boolean isMade(long spot) {
    return ledger
        .read(session -> session.skylines().find(spot))
        .filter(one -> !one.due())
        .isPresent();
  }

  private StoredSkyline stored(long spot) {
    return ledger.read(session -> session.skylines().find(spot)).orElseThrow();
  }
}

package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Observation;
import org.lightledger.sun.SunDirection;

class ShotStoreTest extends LedgerTestBase {
  private static final Instant MORNING = Instant.parse("2026-05-01T06:20:00.123456789Z");

  @Test
  void everyShotComesBackAsItWentIn() {
    Random random = new Random(20260501);
    long spot = insertSpot("Chapel", CHAPEL);
    Map<Long, StoredShot> written = new HashMap<>();
    ledger.change(
        session -> {
          for (int number = 0; number < 500; number++) {
            Shot shot = Samples.anyShot(random);
            SunDirection sun = Samples.anySun(random, shot);
            Long spotId = random.nextBoolean() ? spot : null;
            String sha256 = Samples.sha256(number);
            long id = session.shots().insert(shot, sha256, sun, spotId);
            written.put(id, new StoredShot(id, sha256, shot, sun, spotId, List.of()));
          }
        });

    for (StoredShot shot : written.values()) {
      Optional<StoredShot> found = ledger.read(session -> session.shots().find(shot.id()));
      assertThat(found).contains(shot);
      Optional<Long> id = ledger.read(session -> session.shots().idOf(shot.sha256()));
      assertThat(id).contains(shot.id());
    }
    List<StoredShot> waiting = ledger.read(session -> session.shots().needingAttention());
    assertThat(waiting)
        .containsExactlyElementsOf(
            written.values().stream()
                .filter(shot -> shot.shot().needsAttention())
                .sorted(Comparator.comparingLong(StoredShot::id))
                .toList())
        .isNotEmpty();
    ShotStore.Counts counts = ledger.read(session -> session.shots().counts());
    assertThat(counts)
        .isEqualTo(
            new ShotStore.Counts(
                500,
                waiting.size(),
                written.values().stream().filter(shot -> shot.spotId() != null).count()));
  }

  @Test
  void aShotThatIsNotThereIsNotFound() {
    Optional<StoredShot> byNumber = ledger.read(session -> session.shots().find(7));
    Optional<Long> byContent = ledger.read(session -> session.shots().idOf(Samples.sha256(7)));
    assertThat(byNumber).isEmpty();
    assertThat(byContent).isEmpty();
    Shot shot = Samples.shot(CHAPEL, MORNING);
    assertNotFound(() -> ledger.change(session -> session.shots().update(7, shot, null)));
    assertNotFound(() -> ledger.change(session -> session.shots().assign(7, null)));
  }

  @Test
  void theSameContentIsRefusedASecondTime() {
    insert(1, MORNING, null);
    assertThatThrownBy(() -> insert(1, MORNING.plusSeconds(1), null))
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.RULE_BROKEN))
        .hasMessage("the ledger already has a row with this shots.sha256; nothing was changed");
  }

  @Test
  void aSpotThatIsNotThereIsRefused() {
    assertThatThrownBy(() -> insert(1, MORNING, 99L))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("names another row that is not in the ledger");
    assertThat(number("SELECT count(*) FROM shots")).isZero();
  }

  @Test
  void whatIsNotANumberIsRefusedBeforeSqliteWouldCallItUnknown() {
    Shot shot = withAltitude(Samples.shot(CHAPEL, MORNING), Double.NaN);
    assertThatThrownBy(
            () ->
                ledger.write(
                    session -> session.shots().insert(shot, Samples.sha256(1), null, null)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected a finite altitude in metres, found NaN");
  }

  @Test
  void theOwnersWordReplacesWhatWasKnown() {
    long spot = insertSpot("Chapel", CHAPEL);
    long id = insert(1, MORNING, null);
    Shot doubtful =
        new Shot(
            Samples.shot(CHAPEL, MORNING).evidence(),
            new CaptureTime.Unknown(null, "The clock was never set."),
            null,
            null,
            List.of(new Problem(Problem.Kind.TIME_MISSING, "The clock was never set.")));
    ledger.change(
        session -> {
          session.shots().update(id, doubtful, null);
          session.shots().assign(id, spot);
        });
    Optional<StoredShot> found = ledger.read(session -> session.shots().find(id));
    assertThat(found)
        .contains(new StoredShot(id, Samples.sha256(1), doubtful, null, spot, List.of()));
    assertThat(number("SELECT count(*) FROM rtree_shots_geom")).isZero();
  }

  @Test
  void aShotNamesTheFilesThatHoldIt() {
    long id = insert(1, MORNING, null);
    for (String name : List.of("b.jpg", "a.jpg")) {
      ledger.change(
          session ->
              session
                  .files()
                  .record(
                      new StoredFile(
                          folder.resolve(name),
                          10,
                          MORNING,
                          Samples.sha256(1),
                          FileStatus.READ,
                          id,
                          List.of())));
    }
    Optional<StoredShot> found = ledger.read(session -> session.shots().find(id));
    assertThat(found.orElseThrow().files())
        .containsExactly(folder.resolve("a.jpg"), folder.resolve("b.jpg"));
  }

  @Test
  void shotsOfASpotAndOfASpanComeInTheOrderOfTime() {
    long spot = insertSpot("Chapel", CHAPEL);
    long late = insert(1, MORNING.plusSeconds(60), spot);
    long early = insert(2, MORNING, spot);
    long elsewhere = insert(3, MORNING.plusSeconds(30), null);
    List<StoredShot> ofSpot = ledger.read(session -> session.shots().ofSpot(spot));
    assertThat(ofSpot).extracting(StoredShot::id).containsExactly(early, late);
    List<StoredShot> taken =
        ledger.read(session -> session.shots().takenBetween(MORNING, MORNING.plusSeconds(60)));
    assertThat(taken).extracting(StoredShot::id).containsExactly(early, elsewhere);
  }

  @Test
  void observationsAreTheShotsWithTimeAndPlaceOfTheirSpotEarliestFirst() {
    Random random = new Random(4);
    List<Long> spots = new ArrayList<>();
    Map<Long, List<Observation>> expected = new HashMap<>();
    ledger.change(
        session -> {
          for (int spot = 0; spot < 20; spot++) {
            spots.add(session.spots().insert(Samples.spot("Spot " + spot, CHAPEL)));
          }
          for (int number = 0; number < 400; number++) {
            Shot shot = Samples.anyShot(random);
            SunDirection sun = Samples.anySun(random, shot);
            // The last spot has no shots at all.
            Long spotId = random.nextInt(5) == 0 ? null : spots.get(random.nextInt(19));
            long id = session.shots().insert(shot, Samples.sha256(number), sun, spotId);
            if (spotId != null && sun != null && shot.time() instanceof CaptureTime.Known known) {
              expected
                  .computeIfAbsent(spotId, key -> new ArrayList<>())
                  .add(observation(id, shot, sun, known.local()));
            }
          }
        });
    expected
        .values()
        .forEach(list -> list.sort(Comparator.comparing(seen -> seen.at().toInstant())));

    Map<Long, List<Observation>> all = ledger.read(session -> session.observations().all());
    Map<Long, List<Observation>> asked =
        ledger.read(session -> session.observations().ofSpots(spots));
    assertThat(all).isEqualTo(expected);
    assertThat(asked).isEqualTo(expected);
    for (Long spot : spots) {
      List<Observation> ofOne = ledger.read(session -> session.observations().ofSpot(spot));
      assertThat(ofOne).isEqualTo(expected.getOrDefault(spot, List.of()));
    }
    List<Long> many = LongStream.range(0, 40_000).filter(id -> id % 2 == 0).boxed().toList();
    Map<Long, List<Observation>> ofMany =
        ledger.read(session -> session.observations().ofSpots(many));
    expected.keySet().removeIf(id -> id % 2 != 0);
    assertThat(ofMany).isEqualTo(expected).isNotEmpty();
  }

  @Test
  void peopleReadTheTimeWithItsOffset() {
    insert(1, MORNING, null);
    Optional<String> text =
        ledger.read(session -> session.call("SELECT captured_at FROM shots").first(Row::text));
    assertThat(text).contains("2026-05-01T08:20:00.123456789+02:00");
  }

  private long insert(long number, Instant at, @Nullable Long spotId) {
    return ledger.write(
        session ->
            session
                .shots()
                .insert(
                    Samples.shot(CHAPEL, at), Samples.sha256(number), Samples.sun(95, 12), spotId));
  }

  private static Observation observation(long id, Shot shot, SunDirection sun, OffsetDateTime at) {
    Shot.Facing facing = shot.facing();
    Bearing bearing = facing == null ? null : facing.bearing();
    return new Observation(id, at, sun, bearing, shot.evidence().exposure().ev100());
  }

  private static Shot withAltitude(Shot shot, double altitudeM) {
    Evidence said = shot.evidence();
    Evidence evidence =
        new Evidence(
            said.format(),
            said.localTime(),
            said.offset(),
            said.gpsInstant(),
            said.gpsTimeOfDay(),
            new GeoPoint(1, 2),
            altitudeM,
            said.positionErrorM(),
            said.direction(),
            Exposure.UNKNOWN,
            said.focalLength35mmMm(),
            said.orientation(),
            said.widthPx(),
            said.heightPx(),
            said.camera(),
            said.problems());
    return new Shot(evidence, shot.time(), shot.position(), shot.facing(), shot.problems());
  }

  private static void assertNotFound(Runnable work) {
    assertThatThrownBy(work::run)
        .isInstanceOfSatisfying(
            LedgerException.class,
            problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.NOT_FOUND))
        .hasMessageContaining("found no shot with the number 7");
  }
}

package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Facing.Origin;
import org.lightledger.spot.LightProfile;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;

class SpotStoreTest extends LedgerTestBase {
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  private static final Facing OWNERS = new Facing(new Bearing(12.25), 30, Origin.OWNER, 0);
  private static final Facing LEARNED = new Facing(new Bearing(359.999), 0, Origin.SHOTS, 3);
  private static final Facing LEARNED_TOO = new Facing(new Bearing(0), 180, Origin.SHOTS, 1);

  @Test
  void everySpotComesBackAsItWentIn() {
    List<Spot> spots = new ArrayList<>();
    insert(
        spots, new Spot(0, "Chapel", "Old town", CHAPEL, MADRID, true, List.of(OWNERS), "n", "c"));
    insert(
        spots,
        new Spot(
            0,
            "Größe ☀ 'x' \"y\"",
            null,
            new GeoPoint(-90, 180),
            null,
            false,
            List.of(),
            "",
            "First line\nsecond, after a gap\t\u001f"));
    insert(
        spots,
        new Spot(
            0,
            "カメラ",
            "区",
            new GeoPoint(90, -180),
            ZoneId.of("UTC"),
            false,
            List.of(OWNERS, LEARNED, LEARNED_TOO),
            "0",
            ""));
    insert(
        spots,
        new Spot(
            0,
            "Same zone as none before",
            null,
            new GeoPoint(0, 0),
            MADRID,
            false,
            List.of(LEARNED_TOO, LEARNED),
            "",
            ""));

    List<Spot> all = ledger.read(session -> session.spots().all());
    assertThat(all).isEqualTo(spots);
    for (Spot spot : spots) {
      assertThat(find(spot.id())).contains(spot);
    }
    assertThat(find(99)).isEmpty();
    long count = ledger.read(session -> session.spots().count());
    assertThat(count).isEqualTo(4);
  }

  private void insert(List<Spot> into, Spot spot) {
    long id = ledger.write(session -> session.spots().insert(spot));
    into.add(
        new Spot(
            id,
            spot.name(),
            spot.area(),
            spot.position(),
            spot.zone(),
            spot.open(),
            spot.facings(),
            spot.notes(),
            spot.cautions()));
  }

  @Test
  void theOwnersWordsAreReplacedAndTheRestStays() {
    long id =
        ledger.write(session -> session.spots().insert(Samples.spot("Chapel", CHAPEL, OWNERS)));
    Spot words =
        new Spot(
            id,
            "Chapel, west door",
            "Old town",
            new GeoPoint(0, 0),
            null,
            true,
            List.of(),
            "Ask the warden.",
            "Traffic");
    ledger.change(session -> session.spots().update(words));
    assertThat(find(id))
        .contains(
            new Spot(
                id,
                "Chapel, west door",
                "Old town",
                CHAPEL,
                MADRID,
                true,
                List.of(OWNERS),
                "Ask the warden.",
                "Traffic"));
  }

  @Test
  void facingsOfOneOriginAreReplacedAndTheOthersStay() {
    long id =
        ledger.write(
            session -> session.spots().insert(Samples.spot("Chapel", CHAPEL, OWNERS, LEARNED)));
    ledger.change(
        session -> session.spots().setFacings(id, List.of(LEARNED_TOO, LEARNED), Origin.SHOTS));
    assertThat(find(id).orElseThrow().facings()).containsExactly(OWNERS, LEARNED_TOO, LEARNED);
    ledger.change(session -> session.spots().setFacings(id, List.of(), Origin.OWNER));
    assertThat(find(id).orElseThrow().facings()).containsExactly(LEARNED_TOO, LEARNED);
    assertThatThrownBy(
            () ->
                ledger.change(
                    session -> session.spots().setFacings(id, List.of(OWNERS), Origin.SHOTS)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("expected facings of origin SHOTS, found one of OWNER");
  }

  @Test
  void theSpatialIndexFollowsEveryChange() {
    long id = insertSpot("Chapel", CHAPEL);
    assertIndexed(id, CHAPEL);
    GeoPoint moved = new GeoPoint(-33.5, 151.25);
    ledger.change(session -> session.spots().move(id, moved, ZoneId.of("Australia/Sydney")));
    assertIndexed(id, moved);
    assertThat(find(id).orElseThrow().zone()).isEqualTo(ZoneId.of("Australia/Sydney"));
    sql("UPDATE spots SET id = 70 WHERE id = " + id);
    assertIndexed(70, moved);
    assertThat(number("SELECT count(*) FROM rtree_spots_geom")).isEqualTo(1);
    ledger.change(session -> session.spots().delete(70));
    assertThat(number("SELECT count(*) FROM rtree_spots_geom")).isZero();
  }

  @Test
  void theSpatialIndexFollowsAShotThatGainsAndLosesItsPlace() {
    ledger.change(
        session ->
            session
                .shots()
                .insert(Samples.shot(CHAPEL, Instant.EPOCH), Samples.sha256(1), null, null));
    assertThat(number("SELECT count(*) FROM rtree_shots_geom")).isEqualTo(1);
    sql("UPDATE shots SET (geom, position_source, position_error_m) = (NULL, NULL, NULL)");
    assertThat(number("SELECT count(*) FROM rtree_shots_geom")).isZero();
    ledger.change(session -> session.shots().update(1, Samples.shot(CHAPEL, Instant.EPOCH), null));
    assertThat(number("SELECT count(*) FROM rtree_shots_geom")).isEqualTo(1);
    sql("UPDATE shots SET (id, geom, position_source, position_error_m) = (5, NULL, NULL, NULL)");
    assertThat(number("SELECT count(*) FROM rtree_shots_geom")).isZero();
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }

  @Test
  void deletingASpotKeepsItsShots() {
    long id =
        ledger.write(session -> session.spots().insert(Samples.spot("Chapel", CHAPEL, LEARNED)));
    long shot =
        ledger.write(
            session ->
                session
                    .shots()
                    .insert(Samples.shot(CHAPEL, Instant.EPOCH), Samples.sha256(1), null, id));
    ledger.change(session -> session.spots().delete(id));
    assertThat(find(id)).isEmpty();
    assertThat(number("SELECT count(*) FROM facings")).isZero();
    Optional<StoredShot> kept = ledger.read(session -> session.shots().find(shot));
    assertThat(kept.orElseThrow().spotId()).isNull();
  }

  @Test
  void aSpotOnAShortlistIsNotDeleted() {
    long id = insertSpot("Chapel", CHAPEL);
    ledger.change(
        session ->
            session
                .shortlists()
                .add(
                    session.shortlists().create("Ana and Luis", ""),
                    new Shortlist.Entry(id, null, null, "")));
    assertThatThrownBy(() -> ledger.change(session -> session.spots().delete(id)))
        .isInstanceOf(LedgerException.class)
        .hasMessage(
            "spot 1 is proposed on the shortlists [Ana and Luis]; take it off them first, because"
                + " a client may be looking at it");
    assertThat(find(id)).isPresent();
  }

  @Test
  void aNumberIsNeverGivenTwice() {
    long first = insertSpot("Chapel", CHAPEL);
    ledger.change(session -> session.spots().delete(first));
    assertThat(insertSpot("Bridge", CHAPEL)).isGreaterThan(first);
  }

  @Test
  void aSpotThatIsNotThereCanNotBeChanged() {
    Spot nowhere = Samples.spot("Nowhere", CHAPEL);
    for (Runnable work :
        List.<Runnable>of(
            () -> ledger.change(session -> session.spots().update(nowhere)),
            () -> ledger.change(session -> session.spots().move(0, CHAPEL, null)),
            () -> ledger.change(session -> session.spots().delete(0)),
            () ->
                ledger.change(session -> session.spots().setFacings(0, List.of(), Origin.OWNER)))) {
      assertThatThrownBy(work::run)
          .isInstanceOfSatisfying(
              LedgerException.class,
              problem -> assertThat(problem.reason()).isEqualTo(LedgerException.Reason.NOT_FOUND))
          .hasMessageContaining("found no spot with the number 0");
    }
  }

  @Test
  void aProfileHoldsTheSpotAndItsObservations() {
    long id =
        ledger.write(session -> session.spots().insert(Samples.spot("Chapel", CHAPEL, LEARNED)));
    Instant morning = Instant.parse("2026-05-01T06:20:00Z");
    ledger.change(
        session ->
            session
                .shots()
                .insert(Samples.shot(CHAPEL, morning), Samples.sha256(1), Samples.sun(95, 12), id));
    Optional<LightProfile> profile = ledger.read(session -> session.spots().profile(id));
    assertThat(profile.orElseThrow().spot()).isEqualTo(find(id).orElseThrow());
    assertThat(profile.orElseThrow().observations())
        .extracting(Observation::sun)
        .containsExactly(Samples.sun(95, 12));
    Optional<LightProfile> none = ledger.read(session -> session.spots().profile(99));
    assertThat(none).isEmpty();
  }

  private Optional<Spot> find(long id) {
    return ledger.read(session -> session.spots().find(id));
  }

  private void assertIndexed(long id, GeoPoint place) {
    long hits =
        ledger.read(
            session ->
                session
                    .call(
                        "SELECT count(*) FROM rtree_spots_geom WHERE id = ? AND minx <= ?"
                            + " AND maxx >= ? AND miny <= ? AND maxy >= ?")
                    .integer(id)
                    .real("longitude", place.longitudeDeg())
                    .real("longitude", place.longitudeDeg())
                    .real("latitude", place.latitudeDeg())
                    .real("latitude", place.latitudeDeg())
                    .number());
    assertThat(hits).isEqualTo(1);
  }
}

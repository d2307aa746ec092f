package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.spot.Spot;

class GroupingStoreTest extends LedgerTestBase {
  private static final String SUMS =
      "SELECT group_concat(spot_id || ' ' || (origin_north * weight + north) || ' '"
          + " || (origin_east * weight + east) || ' ' || weight || ' ' || stated || ' ' || wide)"
          + " FROM (SELECT * FROM spot_sums WHERE weight > 0 ORDER BY spot_id)";

  private String sums() {
    return ledger
        .read(session -> session.call(SUMS).first(row -> "" + row.textOrNull()))
        .orElseThrow();
  }

  private static GeoPoint beside(double metres) {
    return Geodesy.destination(CHAPEL, new Bearing(70), metres);
  }

  private long shot(int number, double metres, long spotId) {
    return ledger.write(
        session ->
            session
                .shots()
                .insert(
                    Samples.shot(beside(metres), Instant.EPOCH),
                    Samples.sha256(number),
                    null,
                    spotId));
  }

  /** Fills the sums anew as the migration does for a ledger from before. */
  private void fillAnew() throws IOException {
    String migration = Files.readString(Path.of("schema/V5__grouping.sql"));
    sql("DELETE FROM spot_sums");
    for (String statement :
        migration
            .substring(migration.indexOf("-- The shots that are there already"))
            .split(";\n")) {
      if (!statement.isBlank()) {
        sql(statement);
      }
    }
  }

  @Test
  void whateverHappensToShotsTheSumsAreThoseOfTheShotsThatAreThere() throws IOException {
    long one = insertSpot("One", CHAPEL);
    long other = insertSpot("Other", beside(50));
    for (int i = 0; i < 8; i++) {
      shot(i, 3 * i, i % 2 == 0 ? one : other);
    }
    ledger.change(
        session -> {
          session.shots().assign(1, other);
          session.shots().assign(2, null);
          session.shots().update(3, Samples.shot(beside(44), Instant.EPOCH), null);
        });
    sql("UPDATE shots SET position_error_m = 40 WHERE id = 4");
    sql("UPDATE shots SET position_error_m = NULL WHERE id = 5");
    sql("UPDATE shots SET spot_source = 'OWNER_FAR' WHERE id = 6");
    sql("DELETE FROM shots WHERE id = 7");
    String kept = sums();

    fillAnew();

    assertThat(sums()).isEqualTo(kept).contains("1 ", "2 ");
  }

  @Test
  void aSpotFollowsAShotWhosePositionIsCorrected() {
    long spot = insertSpot("One", CHAPEL);
    long id = shot(1, 10, spot);
    assertThat(position(spot)).isNotEqualTo(CHAPEL);

    ledger.change(session -> session.shots().update(id, Samples.shot(CHAPEL, Instant.EPOCH), null));

    assertThat(Geodesy.distanceM(position(spot), CHAPEL)).isLessThan(0.001);
  }

  private GeoPoint position(long spotId) {
    return ledger.read(session -> session.spots().find(spotId)).map(Spot::position).orElseThrow();
  }

  @Test
  void aDeletedSpotThatIsNotThereCanNotBeBroughtBack() {
    assertThatThrownBy(() -> ledger.change(session -> session.droppedSpots().bringBack(7)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("found no deleted spot with the number 7");
  }

  @Test
  void aNumberOfADeletedSpotIsNotGivenAgain() {
    long spot = insertSpot("One", CHAPEL);
    ledger.change(session -> session.droppedSpots().drop(session.spots().find(spot).orElseThrow()));

    assertThat(insertSpot("Two", CHAPEL)).isGreaterThan(spot);
  }
}

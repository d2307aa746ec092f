package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;
import org.lightledger.share.Returned;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.GroupingStore.Source;
import org.lightledger.store.LedgerException;
import org.lightledger.store.SessionSamples;
import org.lightledger.store.Standing;

/** Which shot belongs to which spot, by its place and by the owner's hand. */
class GroupingTest {
  private static final OpenHours EVENING = new OpenHours(LocalTime.of(17, 0), LocalTime.of(21, 30));

  @TempDir Path folder;
  private Grouped ledger;

  @BeforeEach
  void open() {
    ledger = new Grouped(folder);
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  private static GeoPoint east(double metres) {
    return Geodesy.destination(Grouped.HERE, new Bearing(90), metres);
  }

  private double eastOf(long spotId) {
    GeoPoint position = ledger.spot(spotId).position();
    double metres = Geodesy.distanceM(Grouped.HERE, position);
    return Geodesy.bearing(Grouped.HERE, position).trueDeg() < 180 ? metres : -metres;
  }

  @Test
  void aSpotStandsAtTheMeanOfItsShotsWeightedByTheirErrors() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(15), 10.0);

    // (0/25 + 15/100) / (1/25 + 1/100) = 3 m; the sums are rounded to a millimetre.
    assertThat(eastOf(1)).isCloseTo(3, within(0.003));
  }

  @Test
  void anErrorThatIsNotStatedCountsAsTenMetresAndNoneCountsAsLessThanThree() {
    ledger.add("a", east(0), null);
    ledger.add("b", east(10), 10.0);
    assertThat(eastOf(1)).isCloseTo(5, within(0.003));

    ledger.add("c", east(1000), 0.1);
    ledger.add("d", east(1010), 3.0);
    assertThat(eastOf(2)).isCloseTo(1005, within(0.003));
  }

  @Test
  void takingAShotAwayUndoesAddingItExactly() {
    ledger.add("a", east(0), 4.0);
    ledger.add("b", east(7), 6.5);
    GeoPoint before = ledger.spot(1).position();
    long c = ledger.add("c", east(13), null);
    assertThat(ledger.spot(1).position()).isNotEqualTo(before);

    ledger.edit(editing -> editing.split(1, List.of(c)));

    assertThat(ledger.spot(1).position()).isEqualTo(before);
  }

  @Test
  void aSpotAcrossTheDateLineStandsOnIt() {
    ledger.add("a", new GeoPoint(-17, 179.9999), 5.0);
    ledger.add("b", new GeoPoint(-17, -179.9999), 5.0);

    assertThat(ledger.spots()).hasSize(1);
    assertThat(Math.abs(ledger.spot(1).position().longitudeDeg())).isCloseTo(180, within(1e-7));
  }

  @Test
  void aRoughShotJoinsTheOnlySpotWithinItsErrorAndHardlyMovesIt() {
    ledger.add("a", east(0), 4.0);
    ledger.add("b", east(60), 80.0);

    assertThat(ledger.spots()).hasSize(1);
    assertThat(eastOf(1)).isBetween(0.0, 0.3);
    assertThat(ledger.standing(1).rough()).isFalse();
  }

  @Test
  void aRoughShotBetweenSeveralSpotsIsASpotOfItsOwnThatSaysSo() {
    ledger.add("a", east(0), 4.0);
    ledger.add("b", east(60), 4.0);
    ledger.add("c", east(30), 80.0);
    ledger.add("d", east(75), 90.0);

    assertThat(ledger.home()).containsEntry("c", 3L).containsEntry("d", 3L);
    assertThat(ledger.standing(3).rough()).isTrue();
    assertThat(ledger.standing(3).hints()).anyMatch(hint -> hint.contains("known roughly"));
  }

  @Test
  void aSpotIsNoLongerRoughOnceAnExactShotJoinsIt() {
    ledger.add("a", east(0), 60.0);
    assertThat(ledger.standing(1).rough()).isTrue();
    ledger.add("b", east(20), 5.0);

    assertThat(ledger.standing(1).rough()).isFalse();
    assertThat(eastOf(1)).isCloseTo(20, within(0.2));
  }

  @Test
  void wideErrorsAreAHintOfAPlaceUnderCover() {
    ledger.add("a", east(0), 24.0);
    assertThat(ledger.standing(1).perhapsUnderCover()).isTrue();
    assertThat(ledger.standing(1).hints())
        .containsExactly(
            "Perhaps indoors or under cover: 1 of 1 stated GPS errors are above 20 m.");
    ledger.add("b", east(0), 4.0);
    assertThat(ledger.standing(1)).isEqualTo(new Standing(false, 0, 2, 1, false));
    assertThat(ledger.standing(1).perhapsUnderCover()).isFalse();
  }

  @Test
  void shotsAtTheOldPlaceOfAJoinedSpotGoToTheSpotThatTookItOver() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(80), 5.0);
    ledger.edit(editing -> editing.join(1, 2));

    ledger.add("at the old place", east(82), 5.0);
    ledger.add("in the middle", east(40), 5.0);
    ledger.add("beyond", east(120), 5.0);

    assertThat(ledger.home())
        .containsEntry("b", 1L)
        .containsEntry("at the old place", 1L)
        .containsEntry("in the middle", 1L)
        .containsEntry("beyond", 3L);
  }

  @Test
  void aJoinLosesNoNoteNoCautionAndNoFacing() {
    Facing facing = new Facing(new Bearing(120), 10, Facing.Origin.OWNER, 0);
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(80), 5.0);
    ledger
        .ledger()
        .change(
            session -> {
              session.spots().update(worded(ledger.spot(1), null, "key at the mill", ""));
              session.spots().update(worded(ledger.spot(2), "River", "bring boots", "wet steps"));
              session.spots().setFacings(2, List.of(facing), Facing.Origin.OWNER);
            });

    ledger.edit(editing -> editing.join(1, 2));

    assertThat(ledger.spot(1))
        .returns("River", Spot::area)
        .returns("key at the mill\nbring boots", Spot::notes)
        .returns("wet steps", Spot::cautions);
    assertThat(ledger.spot(1).facings()).contains(facing);
    assertThat(ledger.spots()).hasSize(1);
  }

  @Test
  void aJoinLosesNothingThatHangsOnEitherSpotAndTheOneThatStaysKeepsItsOwn() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(80), 5.0);
    ledger.add("c", east(500), 5.0);
    ledger.add("d", east(900), 5.0);
    long share =
        ledger
            .ledger()
            .write(
                session -> {
                  session.traits().set(1, Set.of(Trait.PARKING));
                  session.traits().set(2, Set.of(Trait.PARKING, Trait.WATER));
                  session.hazards().set(2, Set.of(Hazard.DROP));
                  session.drives().setHours(2, EVENING);
                  session.drives().put(new OwnDrive(1, 2, 3));
                  session.drives().put(new OwnDrive(1, 3, 10));
                  session.drives().put(new OwnDrive(3, 2, 25));
                  session.drives().put(new OwnDrive(2, 4, 14));
                  session.drives().put(new OwnDrive(4, 2, 16));
                  session.skylines().measure(1, List.of(point(0, 5), point(90, 1)));
                  session.skylines().measure(2, List.of(point(90, 30), point(200, 12.25)));
                  long id = session.shortlists().create("Ana and Luis", "");
                  long shared = SessionSamples.share(session, ShareSubject.shortlist(id));
                  session
                      .replies()
                      .keep(
                          shared,
                          List.of(
                              new Returned.Pick(1, false, "by the river"),
                              new Returned.Pick(2, true, "with the dog")),
                          "",
                          Instant.EPOCH);
                  return shared;
                });

    ledger.edit(editing -> editing.join(1, 2));

    ledger
        .ledger()
        .change(
            session -> {
              assertThat(session.traits().of(1)).containsExactly(Trait.WATER, Trait.PARKING);
              assertThat(session.hazards().of(1)).containsExactly(Hazard.DROP);
              assertThat(session.drives().hours(1)).contains(EVENING);
              assertThat(session.drives().all())
                  .containsExactly(
                      new OwnDrive(1, 3, 10), new OwnDrive(1, 4, 14), new OwnDrive(4, 1, 16));
              assertThat(session.skylines().measured(1))
                  .containsExactly(point(0, 5), point(90, 1), point(200, 12.25));
              assertThat(session.replies().of(share).picks())
                  .containsExactly(new Returned.Pick(1, true, "by the river\nwith the dog"));
            });
  }

  @Test
  void theHoursOfTheSpotThatStaysAreItsOwn() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(80), 5.0);
    OpenHours allDay = new OpenHours(LocalTime.of(8, 0), LocalTime.of(22, 0));
    ledger
        .ledger()
        .change(
            session -> {
              session.drives().setHours(1, allDay);
              session.drives().setHours(2, EVENING);
            });

    ledger.edit(editing -> editing.join(1, 2));

    assertThat(ledger.ledger().read(session -> session.drives().hours(1)).orElseThrow())
        .isEqualTo(allDay);
  }

  private static MeasuredSkyline.Point point(double azimuthDeg, double altitudeDeg) {
    return new MeasuredSkyline.Point(azimuthDeg, altitudeDeg);
  }

  @Test
  void aDeletedSpotComesBackWithAllThatHangsOnIt() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(500), 5.0);
    MeasuredSkyline.Point exact = point(0.1 + 0.2, Math.PI);
    long share =
        ledger
            .ledger()
            .write(
                session -> {
                  session.traits().set(1, Set.of(Trait.WATER, Trait.PARKING));
                  session.hazards().set(1, Set.of(Hazard.ROAD));
                  session.drives().setHours(1, EVENING);
                  session.drives().put(new OwnDrive(2, 1, 12));
                  session.skylines().measure(1, List.of(exact, point(90, 30)));
                  long id = session.shortlists().create("Ana and Luis", "");
                  return SessionSamples.share(session, ShareSubject.shortlist(id));
                });

    ledger.edit(editing -> editing.delete(1));
    ledger
        .ledger()
        .change(
            session -> {
              assertThat(session.drives().all()).isEmpty();
              assertThat(session.skylines().hasSources()).isFalse();
              assertThat(session.replies().of(share).picks()).isEmpty();
            });
    ledger.edit(editing -> editing.bringBack(1));

    ledger
        .ledger()
        .change(
            session -> {
              assertThat(session.traits().of(1)).containsExactly(Trait.WATER, Trait.PARKING);
              assertThat(session.hazards().of(1)).containsExactly(Hazard.ROAD);
              assertThat(session.drives().hours(1)).contains(EVENING);
              assertThat(session.drives().all()).containsExactly(new OwnDrive(2, 1, 12));
              assertThat(session.skylines().measured(1)).containsExactly(exact, point(90, 30));
              assertThat(session.replies().of(share).picks())
                  .containsExactly(new Returned.Pick(1, true, "This one"));
            });
  }

  @Test
  void aDriveBetweenDeletedSpotsComesBackWithTheSecondOfThem() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(500), 5.0);
    ledger.ledger().change(session -> session.drives().put(new OwnDrive(1, 2, 12)));
    ledger.edit(editing -> editing.delete(1));
    ledger.edit(editing -> editing.delete(2));

    ledger.edit(editing -> editing.bringBack(1));
    assertThat(drives()).isEmpty();
    ledger.edit(editing -> editing.bringBack(2));

    assertThat(drives()).containsExactly(new OwnDrive(1, 2, 12));
  }

  @Test
  void aDriveOfADeletedSpotLeadsToTheSpotThatTookItsOtherEndOver() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(500), 5.0);
    ledger.add("c", east(580), 5.0);
    ledger.ledger().change(session -> session.drives().put(new OwnDrive(1, 3, 12)));
    ledger.edit(editing -> editing.delete(1));
    ledger.edit(editing -> editing.join(2, 3));

    ledger.edit(editing -> editing.bringBack(1));

    assertThat(drives()).containsExactly(new OwnDrive(1, 2, 12));
  }

  private List<OwnDrive> drives() {
    return ledger.ledger().read(session -> session.drives().all());
  }

  private static Spot worded(Spot spot, @Nullable String area, String notes, String cautions) {
    return new Spot(
        spot.id(),
        spot.name(),
        area,
        spot.position(),
        spot.zone(),
        spot.open(),
        spot.facings(),
        notes,
        cautions);
  }

  @Test
  void aSplitIsABoundaryThatLaterShotsKeepTo() {
    ledger.add("a", east(0), 5.0);
    long b = ledger.add("b", east(12), 5.0);
    assertThat(ledger.spots()).hasSize(1);

    ledger.edit(editing -> editing.split(1, List.of(b)));
    ledger.add("nearer to a", east(5), 5.0);
    ledger.add("nearer to b", east(7), 5.0);
    ledger.add("b again", east(13), 5.0);

    assertThat(ledger.home())
        .containsEntry("nearer to a", 1L)
        .containsEntry("nearer to b", 2L)
        .containsEntry("b again", 2L);
    // The boundary stays in the middle of the two anchors although both spots have moved.
    ledger.add("still nearer to a", east(5.9), 5.0);
    assertThat(ledger.home()).containsEntry("still nearer to a", 1L);
  }

  @Test
  void splittingAJoinAgainGivesEachItsOldPlaceBack() {
    ledger.add("a", east(0), 5.0);
    long b = ledger.add("b", east(80), 5.0);
    ledger.edit(editing -> editing.join(1, 2));
    ledger.edit(editing -> editing.split(1, List.of(b)));

    ledger.add("c", east(2), 5.0);
    ledger.add("d", east(81), 5.0);

    assertThat(ledger.home())
        .containsEntry("a", 1L)
        .containsEntry("b", 3L)
        .containsEntry("c", 1L)
        .containsEntry("d", 3L);
    assertThat(eastOf(1)).isCloseTo(1, within(0.003));
  }

  @Test
  void aShotMovedToAFarSpotHardlyCountsInItsPosition() {
    ledger.add("a", east(0), 5.0);
    long b = ledger.add("b", east(300), 5.0);
    ledger.edit(editing -> editing.moveShots(List.of(b), 1));

    assertThat(ledger.home()).containsEntry("b", 1L);
    assertThat(ledger.source(b)).isEqualTo(Source.OWNER_FAR);
    assertThat(eastOf(1)).isBetween(0.0, 0.02);
  }

  @Test
  void theOwnersPositionStaysWhateverComes() {
    ledger.add("a", east(0), 5.0);
    GeoPoint place = east(12);
    ledger.edit(editing -> editing.moveTo(1, place));

    ledger.add("at the old place", east(-20), 5.0);
    ledger.add("at the new place", east(30), 5.0);

    assertThat(ledger.home())
        .containsEntry("at the old place", 1L)
        .containsEntry("at the new place", 1L);
    assertThat(ledger.spot(1).position()).isEqualTo(place);
    ledger.edit(editing -> editing.release(1));
    assertThat(eastOf(1)).isCloseTo(10 / 3.0, within(0.003));
    ledger.add("no longer there", east(36), 5.0);
    assertThat(ledger.home()).containsEntry("no longer there", 2L);
  }

  @Test
  void noImportMakesADeletedSpotAgainAndItComesBackWhole() {
    ledger.add("a", east(0), 5.0);
    Facing facing = new Facing(new Bearing(120.5), 10, Facing.Origin.OWNER, 0);
    ledger
        .ledger()
        .change(
            session -> {
              session.spots().update(worded(ledger.spot(1), "River", "n", "c"));
              session.spots().setFacings(1, List.of(facing), Facing.Origin.OWNER);
            });
    Spot before = ledger.spot(1);

    ledger.edit(editing -> editing.delete(1));
    ledger.add("b", east(3), 5.0);
    assertThat(ledger.spots()).isEmpty();
    assertThat(ledger.home()).doesNotContainKeys("a", "b");
    assertThat(ledger.dropped())
        .singleElement()
        .satisfies(
            dropped -> {
              assertThat(dropped.spot()).isEqualTo(before);
              assertThat(dropped.shots()).isEqualTo(2);
            });

    ledger.edit(editing -> editing.bringBack(1));
    assertThat(ledger.home()).containsEntry("a", 1L).containsEntry("b", 1L);
    assertThat(ledger.spot(1))
        .returns(before.name(), Spot::name)
        .returns("River", Spot::area)
        .returns(before.zone(), Spot::zone)
        .returns(before.facings(), Spot::facings);
    assertThat(eastOf(1)).isCloseTo(1.5, within(0.003));
  }

  @Test
  void whatAClientMayBeLookingAtIsNeitherDeletedNorJoinedAway() {
    ledger.add("a", east(0), 5.0);
    ledger.add("b", east(80), 5.0);
    ledger
        .ledger()
        .change(
            session -> {
              long list = session.shortlists().create("Ana and Luis", "");
              session.shortlists().add(list, new Shortlist.Entry(2, null, null, ""));
            });

    assertThatThrownBy(() -> ledger.edit(editing -> editing.delete(2)))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("Ana and Luis");
    assertThatThrownBy(() -> ledger.edit(editing -> editing.join(1, 2)))
        .isInstanceOf(LedgerException.class);
    assertThat(ledger.home()).containsEntry("b", 2L);
    ledger.edit(editing -> editing.join(2, 1));
    assertThat(ledger.home()).containsEntry("a", 2L);
  }

  @Test
  void whatCanNotBeDoneIsSaidAndChangesNothing() {
    long a = ledger.add("a", east(0), 5.0);
    Map<String, Long> before = ledger.home();
    List<Grouped.Edit> wrong =
        List.of(
            editing -> editing.join(1, 1),
            editing -> editing.join(1, 9),
            editing -> editing.split(1, List.of(a)),
            editing -> editing.split(1, List.of(77L)),
            editing -> editing.split(1, List.of()),
            editing -> editing.moveShots(List.of(), 1),
            editing -> editing.moveShots(List.of(77L), 1),
            editing -> editing.moveTo(9, east(0)),
            editing -> editing.name(1, " "),
            editing -> editing.delete(9));
    for (Grouped.Edit edit : wrong) {
      assertThatThrownBy(() -> ledger.edit(edit))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageStartingWith("expected ")
          .hasMessageContaining("found ");
    }
    assertThat(ledger.home()).isEqualTo(before);
  }
}

package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalTime;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.lightledger.correction.Desk.Photo;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.session.Candidate;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;
import org.lightledger.share.Returned;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.SessionSamples;

/** What becomes of spots whose shots are corrected. */
class MovedShotsTest extends CorrectionsTestBase {
  @Test
  void aShotThatMovesLeavesItsSpotAndAnEmptySpotGoes() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 19:31:00", "+02:00", Geodesy.destination(MILL, new Bearing(0), 10))
            .looking(260),
        Photo.at("2026:05:09 20:30:00", "+02:00", CHAPEL).looking(90));
    assertThat(desk.spots()).hasSize(2);

    applyBackAndForth(at(MILL), 3);

    assertThat(desk.spots()).hasSize(1);
    Spot mill = desk.spots().get(0);
    assertThat(mill.facings()).hasSize(2);
    assertThat(desk.shot(3).spotId()).isEqualTo(mill.id());
    assertThat(Geodesy.distanceM(mill.position(), MILL)).isCloseTo(10.0 / 3, within(0.01));

    applyBackAndForth(at(CHAPEL), 2);
    assertThat(desk.spots()).hasSize(2);
    assertThat(Geodesy.distanceM(desk.spots().get(0).position(), MILL)).isLessThan(0.001);
    assertThat(desk.spots().get(1).position()).isEqualTo(CHAPEL);
    assertThat(desk.spots().get(1).zone()).isEqualTo(MADRID);
  }

  @Test
  void anEmptySpotStaysWhenTheOwnerHasSaidSomethingOrAClientMaySeeIt() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 20:30:00", "+02:00", CHAPEL));
    Spot mill = desk.spots().get(0);
    desk.ledger()
        .change(
            session -> {
              session
                  .spots()
                  .update(
                      new Spot(
                          mill.id(),
                          "Mill",
                          null,
                          mill.position(),
                          mill.zone(),
                          false,
                          List.of(),
                          "",
                          ""));
              long list = session.shortlists().create("Autumn", "");
              session.shortlists().add(list, new Shortlist.Entry(2, null, 2L, "words"));
            });
    GeoPoint elsewhere = Geodesy.destination(MILL, new Bearing(270), 300);

    applyBackAndForth(at(elsewhere), 1, 2);

    assertThat(desk.spots()).hasSize(3);
    assertThat(desk.spots().get(0).name()).isEqualTo("Mill");
    assertThat(desk.spots().get(0).position()).isEqualTo(mill.position());
    assertThat(desk.shot(1).spotId()).isEqualTo(desk.shot(2).spotId());
  }

  @Test
  void anEmptySpotStaysWhenASessionMayStopThereOrItsPlanNamesIt() {
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 300);
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 20:30:00", "+02:00", CHAPEL),
        Photo.at("2026:05:09 20:40:00", "+02:00", barn));
    long booked = bookedWithCandidate(1);
    desk.ledger().change(session -> session.plans().keep(booked, SessionSamples.plan(2, 3)));
    GeoPoint elsewhere = Geodesy.destination(MILL, new Bearing(180), 500);

    applyBackAndForth(at(elsewhere), 1, 2, 3);

    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L, 2L, 3L, 5L);
    assertThat(desk.shot(1).spotId()).isEqualTo(5);
  }

  @Test
  void anEmptySpotStaysWithWhateverTheOwnerOrAClientSaidOfIt() {
    Photo[] photos = new Photo[9];
    for (int i = 0; i < photos.length; i++) {
      photos[i] =
          Photo.at(
              "2026:05:09 19:3%d:00".formatted(i),
              "+02:00",
              Geodesy.destination(MILL, new Bearing(90), 200 * i));
    }
    desk.with(photos);
    desk.ledger()
        .change(
            session -> {
              session.traits().set(1, Set.of(Trait.WATER));
              session.hazards().set(2, Set.of(Hazard.ROAD));
              session.drives().setHours(3, new OpenHours(LocalTime.of(8, 0), LocalTime.NOON));
              session.skylines().measure(4, List.of(measured(10), measured(190)));
              session.drives().put(new OwnDrive(5, 6, 12));
              session.drives().put(new OwnDrive(7, 9, 12));
              long list = session.shortlists().create("Autumn", "");
              session
                  .replies()
                  .keep(
                      SessionSamples.share(session, ShareSubject.shortlist(list)),
                      List.of(new Returned.Pick(8, true, "")),
                      "",
                      Instant.EPOCH);
            });
    desk.group(hand -> hand.delete(9));
    GeoPoint elsewhere = Geodesy.destination(MILL, new Bearing(270), 500);

    applyBackAndForth(at(elsewhere), 1, 2, 3, 4, 5, 6, 7, 8);

    assertThat(desk.spots())
        .extracting(Spot::id)
        .startsWith(1L, 2L, 3L, 4L, 5L, 6L, 7L, 8L)
        .hasSize(9);
    desk.ledger()
        .change(
            session -> {
              assertThat(session.traits().of(1)).containsExactly(Trait.WATER);
              assertThat(session.drives().hours(3)).isPresent();
              assertThat(session.drives().all()).containsExactly(new OwnDrive(5, 6, 12));
              assertThat(session.skylines().measured(4)).hasSize(2);
            });
    desk.group(hand -> hand.bringBack(9));
    assertThat(desk.ledger().<List<OwnDrive>>read(session -> session.drives().of(7)))
        .containsExactly(new OwnDrive(7, 9, 12));
  }

  private static MeasuredSkyline.Point measured(double azimuthDeg) {
    return new MeasuredSkyline.Point(azimuthDeg, 5);
  }

  private long bookedWithCandidate(long spotId) {
    return desk.ledger()
        .write(
            session -> {
              long client = session.clients().add(SessionSamples.adult());
              long booked = session.sessions().add(SessionSamples.session(client));
              session
                  .candidates()
                  .put(booked, new Candidate(spotId, Candidate.Choice.FREE, Set.of(), null, null));
              return booked;
            });
  }

  @Test
  void aSpotThatACorrectionMadeAndASessionMayStopAtOutlastsTheUndo() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", MILL));
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    Long earlier = Objects.requireNonNull(desk.apply(clock("+0:10:00"), 1).id());
    Long moved = Objects.requireNonNull(desk.apply(at(barn), 1).id());
    bookedWithCandidate(2);
    Spot made = desk.spots().get(0);

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(desk.shot(1).spotId()).isEqualTo(1);
    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L, 2L);
    assertThat(desk.spots().get(1)).isEqualTo(made);
    assertThat(desk.corrections().undo(earlier)).isPresent();
  }

  @Test
  void aShotMovedALittleKeepsItsSpotsNumber() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", MILL));

    applyBackAndForth(at(Geodesy.destination(MILL, new Bearing(0), 8)), 1);

    assertThat(desk.spots()).hasSize(1);
    assertThat(desk.spots().get(0).id()).isEqualTo(1);
    assertThat(Geodesy.distanceM(desk.spots().get(0).position(), MILL)).isCloseTo(8, within(0.01));
  }
}

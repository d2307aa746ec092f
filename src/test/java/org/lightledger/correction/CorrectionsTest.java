package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
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
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.track.GpxReader;
import org.lightledger.shot.track.TrackLimits;
import org.lightledger.shot.track.TrackPlaces;
import org.lightledger.shot.view.CameraView;
import org.lightledger.shot.view.PinholeCamera;
import org.lightledger.shot.view.Pixel;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.SessionSamples;
import org.lightledger.store.StoredCorrection;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;

class CorrectionsTest {
  private static final GeoPoint MILL = new GeoPoint(41.93, -6.42);
  private static final GeoPoint CHAPEL = new GeoPoint(41.932, -6.42);
  private static final ZoneId MADRID = ZoneId.of("Europe/Madrid");

  @TempDir Path folder;
  private Desk desk;

  @BeforeEach
  void open() {
    desk = new Desk(folder);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  /** Applies a correction, shows that undoing it leaves no trace, and applies it again. */
  private Corrected applyBackAndForth(Correction correction, long... shotIds) {
    List<String> before = desk.everything();
    var profiles = desk.profiles();
    Corrected first = desk.apply(correction, shotIds);
    List<String> after = desk.everything();
    Long id = first.id();
    if (id == null) {
      assertThat(after).as("a correction that changes nothing leaves no trace").isEqualTo(before);
      return first;
    }
    assertThat(after).isNotEqualTo(before);
    assertThat(desk.corrections().undo(id)).isPresent();
    assertThat(desk.everything()).as("undone").isEqualTo(before);
    assertThat(desk.profiles()).isEqualTo(profiles);
    Corrected again = desk.apply(correction, shotIds);
    assertThat(again.outcomes()).isEqualTo(first.outcomes());
    return again;
  }

  private static Outcome.Kind only(Corrected corrected) {
    assertThat(corrected.outcomes()).hasSize(1);
    return corrected.outcomes().get(0).kind();
  }

  private static String why(Corrected corrected) {
    return String.join(" ", corrected.outcomes().get(0).why());
  }

  private Instant instant(long id) {
    return ((CaptureTime.Known) desk.shot(id).shot().time()).instant();
  }

  private static Correction clock(String text) {
    return Correction.of(new TimeWord.Clock(ClockCorrection.parse(text)));
  }

  private static Correction zone(String name) {
    return Correction.of(new TimeWord.Zone(ZoneId.of(name)));
  }

  private static Correction at(GeoPoint point) {
    return Correction.of(new PlaceWord.Point(point));
  }

  private static Correction looked(double bearingDeg) {
    return Correction.of(new FacingWord.Looked(new Bearing(bearingDeg)));
  }

  private static Correction byHand(String local, @Nullable String zone) {
    return Correction.of(
        new TimeWord.ByHand(LocalDateTime.parse(local), zone == null ? null : ZoneId.of(zone)));
  }

  private static TrackPlaces walk(String... points) {
    StringBuilder gpx = new StringBuilder("<gpx version=\"1.1\"><trk><trkseg>");
    for (int i = 0; i < points.length; i += 3) {
      gpx.append(
          "<trkpt lat=\"%s\" lon=\"%s\"><time>%s</time></trkpt>"
              .formatted(points[i + 1], points[i + 2], points[i]));
    }
    gpx.append("</trkseg></trk></gpx>");
    try {
      return new TrackPlaces(
          List.of(
              GpxReader.read(
                  new ByteArrayInputStream(gpx.toString().getBytes(StandardCharsets.UTF_8)))),
          TrackLimits.standard());
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void theZoneOfTheClockGivesSeveralShotsTheirTime() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", null, null), Photo.at("2026:01:09 17:30:00", null, null));

    Corrected corrected = applyBackAndForth(zone("Europe/Madrid"), 1, 2);

    assertThat(corrected.count(Outcome.Kind.STILL_WAITING)).isEqualTo(2);
    assertThat(why(corrected)).contains("holds no position").doesNotContain("time");
    assertThat(instant(1)).isEqualTo("2026-05-09T17:30:00Z");
    assertThat(instant(2)).isEqualTo("2026-01-09T16:30:00Z");
  }

  @Test
  void aShotWithoutTimeAndPlaceLeavesTheTrayOnlyWhenBothAreGiven() {
    desk.with(Photo.at("2026:05:09 19:30:00", null, null));

    assertThat(only(applyBackAndForth(zone("Europe/Lisbon"), 1)))
        .isEqualTo(Outcome.Kind.STILL_WAITING);
    assertThat(only(applyBackAndForth(at(MILL), 1))).isEqualTo(Outcome.Kind.FIXED);

    StoredShot stored = desk.shot(1);
    assertThat(instant(1))
        .as("the owner's earlier word on the zone outweighs the zone of the place")
        .isEqualTo("2026-05-09T18:30:00Z");
    assertThat(stored.sun()).isEqualTo(Desk.SUN.direction(instant(1), MILL));
    assertThat(stored.shot().position())
        .isEqualTo(new Shot.Position(MILL, Shot.PositionSource.OWNER, null));
    assertThat(desk.profiles().get(0).observations()).hasSize(1);
    List<StoredShot> waiting = desk.ledger().read(session -> session.shots().needingAttention());
    assertThat(waiting).isEmpty();
  }

  @Test
  void thePlaceAloneTellsTheZone() {
    desk.with(Photo.at("2026:05:09 19:30:00", null, null));

    assertThat(only(applyBackAndForth(at(MILL), 1))).isEqualTo(Outcome.Kind.FIXED);

    assertThat(desk.shot(1).shot().time())
        .isEqualTo(
            new CaptureTime.Known(
                Instant.parse("2026-05-09T17:30:00Z"),
                ZoneOffset.ofHours(2),
                CaptureTime.Source.PLACE_ZONE));
  }

  @Test
  void aZoneIsRefusedWhereTheFileTellsTheOffsetAndWhereTheClocksDoNotFit() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at(null, null, MILL),
        Photo.at("2026:03:29 02:30:00", null, null),
        Photo.at("2026:10:25 02:30:00", null, null));

    Corrected corrected = applyBackAndForth(zone("Europe/Madrid"), 1, 2, 3, 4, 99);

    assertThat(corrected.id()).isNull();
    assertThat(corrected.count(Outcome.Kind.UNCHANGED)).isEqualTo(5);
    assertThat(corrected.outcomes().stream().map(outcome -> outcome.why().get(0)))
        .satisfiesExactly(
            why -> assertThat(why).contains("tells its offset"),
            why -> assertThat(why).contains("no reading", "by hand"),
            why -> assertThat(why).contains("skipped 2026-03-29 02:30"),
            why -> assertThat(why).contains("not one time only", "+02:00 or +01:00"),
            why -> assertThat(why).contains("not in the ledger"));
  }

  @Test
  void theClockIsPutRightFromTheReadingInTheFile() {
    desk.with(
        Photo.at("2026:05:09 20:30:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 20:40:00", null, MILL).looking(250));

    applyBackAndForth(clock("-1:00:00"), 1, 2);
    assertThat(instant(1)).isEqualTo("2026-05-09T17:30:00Z");
    assertThat(instant(2)).isEqualTo("2026-05-09T17:40:00Z");
    assertThat(desk.shot(1).sun())
        .isEqualTo(Desk.SUN.direction(instant(1), desk.shot(1).shot().position().point()));

    applyBackAndForth(clock("-0:30:00"), 1);
    assertThat(instant(1)).as("replaces the first").isEqualTo("2026-05-09T18:00:00Z");
    assertThat(only(applyBackAndForth(clock("-0:30:00"), 1))).isEqualTo(Outcome.Kind.UNCHANGED);
  }

  @Test
  void oneShotWhoseTimeIsKnownPutsTheClockOfAllRight() {
    desk.with(
        Photo.at("2026:05:09 20:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 20:40:10", "+02:00", MILL),
        Photo.at(null, null, MILL));
    TimeWord word = new TimeWord.ClockOf(1, LocalDateTime.parse("2026-05-09T20:27:55"));

    Corrected corrected = applyBackAndForth(Correction.of(word), 1, 2, 3);

    assertThat(corrected.count(Outcome.Kind.FIXED)).isEqualTo(2);
    assertThat(corrected.outcomes().get(2).why().get(0)).contains("no reading");
    assertThat(desk.shot(2).shot().clockCorrection().toText()).isEqualTo("-0:02:05");
    assertThat(instant(2)).isEqualTo("2026-05-09T18:38:05Z");
    for (TimeWord bad :
        List.of(
            new TimeWord.ClockOf(3, LocalDateTime.parse("2026-05-09T20:27:55")),
            new TimeWord.ClockOf(77, LocalDateTime.parse("2026-05-09T20:27:55")),
            new TimeWord.ClockOf(1, LocalDateTime.parse("9026-05-09T20:27:55")))) {
      assertThat(only(applyBackAndForth(Correction.of(bad), 2))).isEqualTo(Outcome.Kind.UNCHANGED);
    }
  }

  @Test
  void aTimeByTheZoneOfTheClockMovesWithTheClockAndATimeByHandDoesNot() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", null, null), Photo.at("2026:05:09 19:30:05", null, null));
    desk.apply(zone("Europe/Madrid"), 1);
    desk.apply(byHand("2026-05-10T08:00:00", "Europe/Madrid"), 2);

    Corrected corrected = applyBackAndForth(clock("+0:10:00"), 1, 2);

    assertThat(instant(1)).isEqualTo("2026-05-09T17:40:00Z");
    assertThat(instant(2)).isEqualTo("2026-05-10T06:00:00Z");
    assertThat(corrected.outcomes().get(1).why().get(0)).contains("given by hand");
    assertThat(only(applyBackAndForth(zone("Europe/Lisbon"), 2))).isEqualTo(Outcome.Kind.UNCHANGED);
  }

  @Test
  void anAmbiguousTimeIsChosenAmongItsCandidatesAndNoOthers() {
    desk.with(
        Photo.at("2026:10:25 02:30:00", null, MILL), Photo.at("2026:05:09 19:30:00", null, MILL));
    assertThat(desk.shot(1).shot().time()).isInstanceOf(CaptureTime.Ambiguous.class);

    Corrected wrong = applyBackAndForth(choice("+05:00"), 1, 2);
    assertThat(wrong.id()).isNull();
    assertThat(why(wrong)).contains("none of the times that fit", "UTC+02:00, UTC+01:00");
    assertThat(only(applyBackAndForth(choice("+01:00"), 1))).isEqualTo(Outcome.Kind.FIXED);

    assertThat(desk.shot(1).shot().time())
        .isEqualTo(
            new CaptureTime.Known(
                Instant.parse("2026-10-25T01:30:00Z"),
                ZoneOffset.ofHours(1),
                CaptureTime.Source.OWNER));
    assertThat(desk.shot(1).sun()).isNotNull();
  }

  private static Correction choice(String offset) {
    return Correction.of(new TimeWord.Choice(ZoneOffset.of(offset)));
  }

  @Test
  void aTimeByHandTakesTheZoneOfThePlaceUnlessItIsGiven() {
    desk.with(Photo.at(null, null, MILL), Photo.at(null, null, null));

    Corrected corrected = applyBackAndForth(byHand("2026-05-09T19:30:00", null), 1, 2);
    assertThat(corrected.outcomes().get(0).kind()).isEqualTo(Outcome.Kind.FIXED);
    assertThat(instant(1)).isEqualTo("2026-05-09T17:30:00Z");
    assertThat(corrected.outcomes().get(1).why().get(0)).contains("give the zone or the offset");

    applyBackAndForth(byHand("2026-05-09T19:30:00", "-03:00"), 1);
    assertThat(instant(1)).isEqualTo("2026-05-09T22:30:00Z");
  }

  @ParameterizedTest
  @ValueSource(strings = {"9999-12-31T23:59:59", "+999999999-12-31T23:59:59", "-9999-01-01T00:00"})
  void aTimeWithoutAKnownSunIsRefused(String local) {
    desk.with(Photo.at(null, null, MILL));

    Corrected corrected = applyBackAndForth(byHand(local, "+00:00"), 1);

    assertThat(corrected.id()).isNull();
    assertThat(why(corrected)).containsAnyOf("check the year", "beyond any calendar");
  }

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

  @Test
  void aTrackLogPlacesShotsTogetherWithTheClocksCorrection() {
    desk.with(
        Photo.at("2026:05:09 20:30:00", null, null),
        Photo.at("2026:05:09 20:30:30", "+02:00", null),
        Photo.at("2026:05:09 23:30:30", "+02:00", null),
        Photo.at("2026:05:09 20:30:40", "+02:00", MILL));
    TrackPlaces places =
        walk("2026-05-09T17:29:00Z", "41.93", "-6.42", "2026-05-09T17:31:00Z", "41.932", "-6.42");
    Correction correction =
        new Correction(
            new TimeWord.Clock(ClockCorrection.parse("-1:00:00")),
            new PlaceWord.Track(places),
            null);

    Corrected corrected = applyBackAndForth(correction, 1, 2, 3, 4);

    assertThat(corrected.outcomes().stream().map(Outcome::kind))
        .containsExactly(
            Outcome.Kind.FIXED, Outcome.Kind.FIXED, Outcome.Kind.UNCHANGED, Outcome.Kind.UNCHANGED);
    assertThat(instant(1)).isEqualTo("2026-05-09T17:30:00Z");
    Shot.Position half = Objects.requireNonNull(desk.shot(1).shot().position());
    assertThat(half.source()).isEqualTo(Shot.PositionSource.TRACK);
    assertThat(half.point().latitudeDeg()).isCloseTo(41.931, within(1e-6));
    assertThat(corrected.outcomes().get(2).why().get(0)).contains("Place the shot on the map");
    assertThat(corrected.outcomes().get(3).why().get(0)).contains("position of its own");

    Corrected moved = applyBackAndForth(clock("-2:00:00"), 1);
    assertThat(moved.id()).as("its place came from its time").isNull();
    assertThat(why(moved)).contains("placed by its time");
    applyBackAndForth(at(MILL), 1);
    assertThat(only(applyBackAndForth(clock("-2:00:00"), 1))).isEqualTo(Outcome.Kind.FIXED);
  }

  @Test
  void otherShotsOfTheSameMinutesPlaceAShot() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:32:00", "+02:00", null),
        Photo.at("2026:05:09 19:33:00", null, null),
        Photo.at("2026:05:09 22:33:00", "+02:00", null),
        Photo.at(null, null, null),
        Photo.at("2026:05:09 19:31:00", "+02:00", MILL));

    Corrected corrected = applyBackAndForth(Correction.of(new PlaceWord.Nearby()), 2, 3, 4, 5, 6);

    assertThat(corrected.outcomes().stream().map(Outcome::kind))
        .containsExactly(
            Outcome.Kind.FIXED,
            Outcome.Kind.FIXED,
            Outcome.Kind.UNCHANGED,
            Outcome.Kind.UNCHANGED,
            Outcome.Kind.UNCHANGED);
    Shot.Position position = Objects.requireNonNull(desk.shot(2).shot().position());
    assertThat(position.source()).isEqualTo(Shot.PositionSource.NEARBY_SHOT);
    assertThat(instant(3)).isEqualTo("2026-05-09T17:33:00Z");
    assertThat(corrected.outcomes().get(3).why().get(0)).contains("give the time first");
    assertThat(desk.shot(2).spotId()).isEqualTo(desk.shot(1).spotId());
  }

  @Test
  void aRefusedPositionIsNoReasonToWaitOnceTheShotIsPlaced() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", new GeoPoint(0, 0)));
    assertThat(desk.shot(1).shot().problems())
        .anyMatch(problem -> problem.kind() == Problem.Kind.POSITION_REFUSED);

    assertThat(only(applyBackAndForth(at(MILL), 1))).isEqualTo(Outcome.Kind.FIXED);

    assertThat(desk.shot(1).shot().problems())
        .noneMatch(problem -> problem.kind() == Problem.Kind.POSITION_REFUSED);
    assertThat(desk.shot(1).shot().evidence().position()).isEqualTo(new GeoPoint(0, 0));
  }

  @Test
  void aDirectionTeachesTheSpotAFacing() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:31:00", "+02:00", MILL));
    assertThat(desk.spots().get(0).facings()).isEmpty();

    Corrected corrected = applyBackAndForth(looked(245), 1, 2);

    assertThat(corrected.count(Outcome.Kind.FIXED)).isEqualTo(2);
    assertThat(desk.spots().get(0).facings()).hasSize(1);
    assertThat(desk.spots().get(0).facings().get(0).bearing()).isEqualTo(new Bearing(245));
    assertThat(desk.spots().get(0).facings().get(0).shots()).isEqualTo(2);
    assertThat(only(applyBackAndForth(clock("+0:01:00"), 1))).isEqualTo(Outcome.Kind.FIXED);
    assertThat(Objects.requireNonNull(desk.shot(1).shot().facing()).source())
        .as("the owner's direction does not hang on the time")
        .isEqualTo(Shot.FacingSource.OWNER);
  }

  @Test
  void theSunInThePictureTellsTheDirectionUntilTheTimeChanges() {
    desk.with(Photo.at("2026:05:09 20:30:00", "+02:00", MILL));
    SunDirection sun = Objects.requireNonNull(desk.shot(1).sun());
    PinholeCamera camera = PinholeCamera.of(desk.shot(1).shot().evidence()).orElseThrow();
    Bearing truth = Bearing.of(sun.azimuth().trueDeg() - 12);
    Pixel disc =
        new CameraView(camera, truth, 4)
            .pixelOf(sun.azimuth(), sun.apparentAltitudeDeg())
            .orElseThrow();

    assertThat(only(applyBackAndForth(tapped(new Taps.Sun(disc)), 1)))
        .isEqualTo(Outcome.Kind.FIXED);
    Shot.Facing facing = Objects.requireNonNull(desk.shot(1).shot().facing());
    assertThat(facing.source()).isEqualTo(Shot.FacingSource.SUN_IN_PICTURE);
    assertThat(Math.abs(facing.bearing().turnToDeg(truth))).isLessThan(1e-6);
    assertThat(desk.spots().get(0).facings()).hasSize(1);

    assertThat(why(applyBackAndForth(clock("+0:00:05"), 1)))
        .as("in five seconds the sun moves by 0.02 degrees")
        .isEmpty();
    Corrected later = applyBackAndForth(clock("+0:20:00"), 1);
    assertThat(why(later)).contains("tap the sun or the shadow again");
    assertThat(desk.shot(1).shot().facing()).isNull();
    assertThat(desk.spots().get(0).facings()).isEmpty();
  }

  @Test
  void aShadowTellsTheDirection() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", MILL));
    SunDirection sun = Objects.requireNonNull(desk.shot(1).sun());
    PinholeCamera camera = PinholeCamera.of(desk.shot(1).shot().evidence()).orElseThrow();
    Bearing truth = Bearing.of(sun.azimuth().trueDeg() + 170);
    CameraView view = new CameraView(camera, truth, -10);
    Pixel head =
        view.pixelOf(Bearing.of(sun.azimuth().trueDeg() + 180), -sun.apparentAltitudeDeg())
            .orElseThrow();

    applyBackAndForth(tapped(new Taps.OwnShadow(head)), 1);

    Shot.Facing facing = Objects.requireNonNull(desk.shot(1).shot().facing());
    assertThat(facing.source()).isEqualTo(Shot.FacingSource.SHADOW_IN_PICTURE);
    assertThat(Math.abs(facing.bearing().turnToDeg(truth))).isLessThan(1e-6);
  }

  private static Correction tapped(Taps taps) {
    return Correction.of(new FacingWord.Tapped(taps));
  }

  @Test
  void aTapIsRefusedWithoutSunOrOutsideThePicture() {
    desk.with(
        Photo.at(null, null, MILL),
        Photo.at("2026:05:09 20:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 23:59:00", "+02:00", MILL));

    Corrected corrected = applyBackAndForth(tapped(new Taps.Sun(new Pixel(9000, 10))), 1, 2, 3);

    assertThat(corrected.id()).isNull();
    assertThat(corrected.outcomes().stream().map(outcome -> outcome.why().get(0)))
        .satisfiesExactly(
            why -> assertThat(why).contains("settle them first"),
            why -> assertThat(why).contains("outside the picture"),
            why -> assertThat(why).contains("below the horizon"));
  }

  @Test
  void correctionsAreUndoneFromTheNewestOnAlone() {
    desk.with(Photo.at("2026:05:09 19:30:00", null, null));
    Long first = Objects.requireNonNull(desk.apply(zone("Europe/Madrid"), 1).id());
    Long second = Objects.requireNonNull(desk.apply(at(MILL), 1).id());
    List<String> both = desk.everything();

    assertThat(desk.corrections().undo(first)).isEmpty();
    assertThat(desk.corrections().undo(999)).isEmpty();
    assertThat(desk.everything()).isEqualTo(both);
    assertThat(newest())
        .extracting(StoredCorrection::words)
        .containsExactly("Placed by hand", "Camera's clock was on Europe/Madrid time");
    assertThat(desk.corrections().undo(second)).isPresent();
    assertThat(desk.corrections().undo(second)).isEmpty();
    assertThat(desk.corrections().undo(first)).isPresent();
    assertThat(newest()).isEmpty();
  }

  private List<StoredCorrection> newest() {
    return desk.ledger().read(session -> session.corrections().newest(10));
  }

  @Test
  void anotherImportUndoesNoCorrection() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", null, null),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL).looking(90));
    desk.apply(zone("Europe/Lisbon"), 1);
    desk.apply(at(MILL), 1, 2);
    desk.apply(looked(200), 2);
    List<String> corrected = desk.everything();

    desk.importAgain();

    assertThat(desk.everything()).isEqualTo(corrected);
    assertThat(newest()).hasSize(3);
  }

  @Test
  void whatAnImportBroughtMeanwhileStaysWhenACorrectionIsUndone() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 20:30:00", "+02:00", CHAPEL).looking(90));
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    Long moved = Objects.requireNonNull(desk.apply(at(barn), 1).id());
    desk.with(
        Photo.at("2026:05:10 19:30:00", "+02:00", barn).looking(30),
        Photo.at("2026:05:10 20:30:00", "+02:00", Geodesy.destination(CHAPEL, new Bearing(0), 10))
            .looking(100));

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(desk.shot(1).spotId()).isEqualTo(1);
    Spot mill = desk.ledger().read(session -> session.spots().find(1).orElseThrow());
    assertThat(mill.position()).isEqualTo(desk.shot(1).shot().position().point());
    assertThat(mill.facings()).hasSize(1);
    Spot atBarn =
        desk.ledger().read(session -> session.spots().find(desk.shot(3).spotId()).orElseThrow());
    assertThat(Geodesy.distanceM(atBarn.position(), barn))
        .as("a file's seven decimals are a centimetre")
        .isLessThan(0.01);
    assertThat(atBarn.facings()).singleElement().matches(f -> f.bearing().trueDeg() == 30);
  }

  @Test
  void theSpotThatTheOwnerChoseOutlastsACorrectedPlace() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL).looking(90));
    desk.group(hand -> hand.moveShots(List.of(2L), 1));
    assertThat(desk.shot(2).spotId()).isEqualTo(1);

    applyBackAndForth(at(Geodesy.destination(MILL, new Bearing(0), 4)), 2);
    assertThat(desk.shot(2).spotId()).isEqualTo(1);
    assertThat(source(2)).contains(GroupingStore.Source.OWNER);

    applyBackAndForth(at(CHAPEL), 2);
    assertThat(desk.shot(2).spotId()).isEqualTo(1);
    assertThat(source(2)).contains(GroupingStore.Source.OWNER_FAR);
  }

  private Optional<GroupingStore.Source> source(long shotId) {
    return desk.ledger().read(session -> session.grouping().source(shotId));
  }

  @Test
  void aShotOfADeletedSpotStaysOffUntilItMoves() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250));
    desk.group(hand -> hand.delete(1));

    applyBackAndForth(clock("+0:10:00"), 1);
    assertThat(desk.shot(1).spotId()).isNull();
    assertThat(desk.spots()).isEmpty();
    applyBackAndForth(at(CHAPEL), 1);
    assertThat(desk.shot(1).spotId()).isNotNull();
  }

  @Test
  void whatTheOwnerGroupedSinceIsNotUndoneWithACorrection() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL).looking(90),
        Photo.at("2026:05:09 19:50:00", "+02:00", CHAPEL).looking(80),
        Photo.at("2026:05:09 19:55:00", "+02:00", MILL).looking(70));
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    Long moved = Objects.requireNonNull(desk.apply(at(barn), 1, 2, 4).id());
    long atBarn = Objects.requireNonNull(desk.shot(1).spotId());
    desk.group(hand -> hand.moveShots(List.of(1L), 2));
    desk.group(hand -> hand.delete(atBarn));

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(desk.shot(1).spotId()).as("moved by hand").isEqualTo(2);
    assertThat(Objects.requireNonNull(desk.shot(1).shot().position()).source())
        .isEqualTo(Shot.PositionSource.GPS);
    assertThat(desk.shot(2).spotId()).isEqualTo(2);
    assertThat(desk.shot(4).spotId()).as("its old spot is there again").isEqualTo(1);
    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L, 2L);
    assertThat(desk.spots().get(0).facings()).singleElement().matches(f -> f.shots() == 1);
  }

  @Test
  void aSpotThatTheOwnerJoinedToAnotherSinceIsNotMadeAgain() {
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 19:31:00", "+02:00", MILL).looking(250),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL).looking(90));
    Long moved =
        Objects.requireNonNull(
            desk.apply(at(Geodesy.destination(MILL, new Bearing(270), 500)), 1).id());
    desk.group(hand -> hand.join(2, 1));

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(desk.spots()).extracting(Spot::id).containsExactly(2L);
    assertThat(List.of(desk.shot(1), desk.shot(2), desk.shot(3)))
        .allMatch(shot -> Objects.equals(shot.spotId(), 2L));
  }

  @Test
  void undoingACorrectionWhoseSpotWasJoinedMovesNoSpotAndMakesNone() {
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    GeoPoint nearMill = Geodesy.destination(MILL, new Bearing(270), 50);
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL),
        Photo.at("2026:05:09 19:50:00", "+02:00", barn));
    Long moved = Objects.requireNonNull(desk.apply(at(nearMill), 3).id());
    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L, 2L, 4L);
    desk.group(hand -> hand.join(1, 4));

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L, 2L);
    assertThat(desk.shot(3).spotId()).isEqualTo(1);
    assertThat(source(3)).contains(GroupingStore.Source.OWNER_FAR);
    assertThat(Geodesy.distanceM(desk.spots().get(0).position(), MILL)).isLessThan(0.1);
    assertThat(Objects.requireNonNull(desk.shot(3).shot().position()).source())
        .isEqualTo(Shot.PositionSource.GPS);
  }

  @Test
  void aShotThatTheOwnerMovedAwayIsNearAgainWhenItsCorrectionIsUndone() {
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:31:00", "+02:00", MILL));
    Long moved = Objects.requireNonNull(desk.apply(at(barn), 2).id());
    desk.group(hand -> hand.moveShots(List.of(2L), 1));
    assertThat(source(2)).contains(GroupingStore.Source.OWNER_FAR);

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(source(2)).contains(GroupingStore.Source.OWNER);
    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L);
  }

  @Test
  void aSpotWhoseShotTheOwnerMovedAwayStandsAtTheMeanOfThoseItHas() {
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:31:00", "+02:00", Geodesy.destination(MILL, new Bearing(0), 10)),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL));
    Long moved = Objects.requireNonNull(desk.apply(at(barn), 2).id());
    desk.group(hand -> hand.moveShots(List.of(2L), 2));

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(Geodesy.distanceM(desk.spots().get(0).position(), MILL)).isLessThan(0.1);
  }

  @Test
  void aRemovedSpotComesBackForTheShotsThatReturnToIt() {
    GeoPoint barn = Geodesy.destination(MILL, new Bearing(270), 500);
    desk.with(
        Photo.at("2026:05:09 19:30:00", "+02:00", MILL),
        Photo.at("2026:05:09 19:31:00", "+02:00", Geodesy.destination(MILL, new Bearing(0), 10)),
        Photo.at("2026:05:09 19:40:00", "+02:00", CHAPEL));
    Long moved = Objects.requireNonNull(desk.apply(at(barn), 1, 2).id());
    desk.group(hand -> hand.moveShots(List.of(2L), 2));

    assertThat(desk.corrections().undo(moved)).isPresent();

    assertThat(desk.shot(1).spotId()).isEqualTo(1);
    assertThat(desk.shot(2).spotId()).isEqualTo(2);
    assertThat(desk.spots()).extracting(Spot::id).containsExactly(1L, 2L);
    assertThat(Geodesy.distanceM(desk.spots().get(0).position(), MILL)).isLessThan(0.1);
  }

  @Test
  void whatASecondFileOfTheShotSaysIsNotLostWhenACorrectionIsUndone() {
    Runnable second =
        desk.withPair(
            Photo.at("2026:05:09 19:30:00", null, null),
            Photo.at("2026:05:09 19:30:00", "+02:00", MILL).looking(250));
    Long corrected =
        Objects.requireNonNull(
            desk.apply(
                    new Correction(
                        new TimeWord.Zone(ZoneId.of("Europe/Lisbon")),
                        new PlaceWord.Point(CHAPEL),
                        null),
                    1)
                .id());
    second.run();
    assertThat(desk.ledger().read(session -> session.shots().counts()).all()).isEqualTo(1);
    assertThat(instant(1)).as("the owner's word stands").isEqualTo("2026-05-09T18:30:00Z");
    assertThat(Objects.requireNonNull(desk.shot(1).shot().position()).point()).isEqualTo(CHAPEL);

    assertThat(desk.corrections().undo(corrected)).isPresent();

    StoredShot stored = desk.shot(1);
    assertThat(instant(1)).isEqualTo("2026-05-09T17:30:00Z");
    Shot.Position position = Objects.requireNonNull(stored.shot().position());
    assertThat(position.source()).isEqualTo(Shot.PositionSource.GPS);
    assertThat(position.point()).isEqualTo(stored.shot().evidence().position());
    assertThat(stored.shot().needsAttention()).isFalse();
    assertThat(desk.spots()).singleElement().matches(spot -> spot.facings().size() == 1);
    assertThat(stored.spotId()).isEqualTo(desk.spots().get(0).id());
  }

  @Test
  void aCorrectionThatFailsLeavesNothing() {
    desk.with(Photo.at("2026:05:09 19:30:00", "+02:00", null));
    List<String> before = desk.everything();

    assertThatThrownBy(
            () ->
                desk.apply(
                    Correction.of(
                        new PlaceWord.Track(
                            instant -> {
                              throw new IllegalStateException("the log broke");
                            })),
                    1))
        .hasMessage("the log broke");

    assertThat(desk.everything()).isEqualTo(before);
    assertThat(newest()).isEmpty();
  }

  /** Forty shots, sixty corrections of any kind, undone one by one: each state comes back. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void anySequenceOfCorrectionsIsUndoneStepByStep(long seed) {
    Random random = new Random(seed);
    List<Photo> photos = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      photos.add(anyPhoto(random, i));
    }
    desk.with(photos.toArray(Photo[]::new));
    List<List<String>> states = new ArrayList<>();
    List<Long> made = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      List<String> before = desk.everything();
      long[] some = LongStream.rangeClosed(1, 40).filter(id -> random.nextInt(6) == 0).toArray();
      Long id = desk.apply(anyCorrection(random), some).id();
      if (id != null) {
        states.add(before);
        made.add(id);
      }
    }
    assertThat(made).hasSizeGreaterThan(20);
    for (int i = made.size() - 1; i >= 0; i--) {
      assertThat(desk.corrections().undo(made.get(i))).isPresent();
      assertThat(desk.everything()).as("undone to step " + i).isEqualTo(states.get(i));
    }
  }

  private static Photo anyPhoto(Random random, int second) {
    String local =
        random.nextInt(8) == 0
            ? null
            : random.nextInt(8) == 0
                ? "2026:10:25 02:30:%02d".formatted(second)
                : "2026:05:09 1%d:%02d:%02d"
                    .formatted(random.nextInt(10), random.nextInt(60), second);
    GeoPoint place = random.nextInt(3) == 0 ? null : anyPoint(random);
    Photo photo = Photo.at(local, random.nextBoolean() ? "+02:00" : null, place);
    return random.nextBoolean() ? photo : photo.looking(random.nextInt(360));
  }

  private static GeoPoint anyPoint(Random random) {
    return new GeoPoint(
        41.93 + random.nextInt(4) * 0.0002 + random.nextDouble() * 0.00005,
        -6.42 + random.nextDouble() * 0.00005);
  }

  private static Correction anyCorrection(Random random) {
    return switch (random.nextInt(8)) {
      case 0 -> zone(random.nextBoolean() ? "Europe/Madrid" : "Europe/Lisbon");
      case 1 -> clock(random.nextBoolean() ? "+0:10:00" : "-1:00:00");
      case 2 -> choice(random.nextBoolean() ? "+02:00" : "+01:00");
      case 3 -> byHand("2026-05-09T1" + random.nextInt(10) + ":00:00", "+02:00");
      case 4 -> Correction.of(new PlaceWord.Nearby());
      case 5 -> looked(random.nextInt(360));
      case 6 -> tapped(new Taps.Sun(new Pixel(random.nextInt(6000), random.nextInt(4000))));
      default -> at(anyPoint(random));
    };
  }

  @Test
  void aThousandShotsAreCorrectedInOneGo() {
    Photo[] photos = new Photo[1000];
    for (int i = 0; i < photos.length; i++) {
      photos[i] = Photo.at("2026:05:09 19:%02d:%02d".formatted(i / 60, i % 60), null, null);
    }
    desk.with(photos);
    long[] all = LongStream.rangeClosed(1, photos.length).toArray();
    List<String> before = desk.everything();

    long started = System.nanoTime();
    Corrected corrected = desk.apply(at(MILL), all);
    Duration took = Duration.ofNanos(System.nanoTime() - started);

    assertThat(corrected.count(Outcome.Kind.FIXED)).isEqualTo(photos.length);
    assertThat(desk.spots()).hasSize(1);
    assertThat(took).as("an owner waits for it").isLessThan(Duration.ofSeconds(20));
    assertThat(desk.corrections().undo(Objects.requireNonNull(corrected.id()))).isPresent();
    assertThat(desk.everything()).isEqualTo(before);
  }
}

package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.correction.Desk.Photo;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.Pixel;
import org.lightledger.spot.Spot;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.StoredCorrection;
import org.lightledger.store.StoredShot;

/** Corrections taken back, whatever came meanwhile. */
class UndoneCorrectionsTest extends CorrectionsTestBase {
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

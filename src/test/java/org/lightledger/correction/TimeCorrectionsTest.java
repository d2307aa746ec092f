package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.lightledger.correction.Desk.Photo;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Shot;
import org.lightledger.store.StoredShot;

/** When shots were taken, by the owner's word. */
class TimeCorrectionsTest extends CorrectionsTestBase {
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
}

package org.lightledger.session.planner;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.lightledger.ask.Sky;
import org.lightledger.light.LightClass;

/** What a plan says, on a winter evening with a real sun. */
class PlanWordsTest {
  private static final LocalTime FOUR = LocalTime.of(16, 0);
  private static final LocalTime SUNSET = LocalTime.of(17, 50);
  private static final StopLimits TWO = new StopLimits(2, 2, 5);

  @Test
  void aStopSaysItsLightItsEvidenceAndItsEnd() {
    SessionPlan plan = plan(town(90).request(TWO, OutfitWish.ONE));

    PlannedStop last = plan.stops().get(1);
    assertThat(last.lights()).extracting(LightStretch::light).contains(LightClass.BACKLIT);
    assertThat(last.why()).startsWith("Backlit from ").contains("(modelled)");
    assertThat(plan.end()).isAfterOrEqualTo(Evening.at(SUNSET).minus(Duration.ofMinutes(15)));
    assertThat(plan.stops().get(0).leave()).isBeforeOrEqualTo(last.arrive());
  }

  @Test
  void theEndOfDirectLightIsWarnedOfWhereItIsKnown() {
    PlanRequest request = ridge();
    SessionPlan plan = plan(request);

    PlannedStop ridge = plan.stops().get(0);
    assertThat(ridge.directEnds()).isNotNull().isBefore(ridge.shootUntil());
    long beforeMin = Duration.between(ridge.directEnds(), ridge.shootUntil()).toMinutes();
    assertThat(plan.warnings())
        .contains(
            "Direct light ends at Ridge at %s, %s before shooting there ends."
                .formatted(
                    Words.hour(ridge.directEnds(), Evening.MADRID), Words.minutes(beforeMin)));
    assertThat(ridge.lights()).extracting(LightStretch::light).endsWith(LightClass.OPEN_SHADE);
  }

  /** The sun goes behind a ridge while one shoots there. */
  private static PlanRequest ridge() {
    return new Evening(FOUR, SUNSET, 60)
        .spot(1, "Ridge", 235, 6.0)
        .request(new StopLimits(1, 1, 5), OutfitWish.ONE)
        .each(spot -> spot.with(locked(null, LocalTime.of(17, 0))));
  }

  private static PlanCandidate backlitOnly(PlanCandidate spot) {
    return new PlanCandidate(
        spot.spotId(),
        spot.name(),
        spot.place(),
        spot.clear(),
        spot.overcast(),
        LightWeights.ordered(List.of(LightClass.BACKLIT)),
        spot.leastMin(),
        spot.wantedMin(),
        spot.open(),
        spot.placeToChange(),
        spot.claim(),
        spot.warmth());
  }

  /** What is told is the end of the light in use, and that the session ends in it only if so. */
  @Test
  void theEndOfTheWantedLightIsThatOfTheLightInUse() {
    PlanRequest request = ridge().each(PlanWordsTest::backlitOnly);

    PlannedStop ridge = plan(request).stops().get(0);

    assertThat(ridge.why())
        .contains("the wanted light ends " + Words.hour(ridge.directEnds(), Evening.MADRID))
        .doesNotContain("the session ends in it");
  }

  /** Clouds take the light of a direction that was wished for; the hours are used all the same. */
  @Test
  void underAnOvercastSkyEvenLightDoesWhereTheSunWasWished() {
    PlanRequest request =
        new Evening(FOUR, SUNSET, 75)
            .spot(1, "Reed Bank", 235, 0)
            .spot(9, "Mill Wall", 235, 0)
            .request(TWO, OutfitWish.ONE)
            .each(PlanWordsTest::backlitOnly);
    SessionPlan clear = plan(request);

    PlanOutcome.Planned overcast = (PlanOutcome.Planned) Planner.overcast(request, clear).outcome();

    assertThat(overcast.plan().worthLightMin()).isPositive();
    assertThat(overcast.plan().stops())
        .allSatisfy(
            stop -> {
              assertThat(stop.wantedMin()).isPositive();
              assertThat(stop.why()).contains("under clouds", "even light does");
            });
    assertThat(clear.stops()).noneMatch(stop -> stop.why().contains("under clouds"));
    LightWeights backlit = LightWeights.ordered(List.of(LightClass.BACKLIT));
    assertThat(backlit.under(Sky.CLEAR)).isSameAs(backlit);
    LightWeights shade = LightWeights.ordered(List.of(LightClass.OPEN_SHADE));
    assertThat(shade.under(Sky.OVERCAST)).isSameAs(shade);
  }

  @Test
  void aCandidateThatClosesBeforeItsLightSaysSo() {
    // Looking east the sun is behind the camera until the sky alone is left at dusk.
    PlanRequest request =
        new Evening(FOUR, LocalTime.of(18, 15), 90)
            .spot(1, "Reed Bank", 235, 0)
            .spot(2, "Mill Wall", 235, 0)
            .spot(3, "Garden", 55, 0, Evening.open(LocalTime.of(15, 0), LocalTime.of(17, 0)))
            .spot(5, "Kiosk", 235, 0, Evening.open(LocalTime.of(15, 0), LocalTime.of(16, 10)))
            .request(TWO, OutfitWish.ONE);
    SessionPlan plan = plan(request);

    Rejected garden = rejected(plan, 3);
    assertThat(garden.rule()).isNull();
    assertThat(garden.lostLightMin()).isPositive();
    assertThat(garden.lacked()).contains("closes at 17:00, its light begins 17:5");
    Rejected kiosk = rejected(plan, 5);
    assertThat(kiosk.rule()).isEqualTo(Rule.OPENING);
    assertThat(kiosk.lostLightMin()).isNull();
    assertThat(kiosk.lacked()).startsWith("Closes at 16:10: no stay of 15 minutes fits in");
  }

  @Test
  void whenNothingFitsTheRefusalSaysHowManyMinutesAreMissing() {
    // Three stays of 15, each after 5 of handling, and drives of 4 and 4, on a grid of 5:
    // 5 + 15 + 10 + 15 + 10 + 15 = 70.
    PlanRequest request = town(45).request(new StopLimits(3, 3, 5), OutfitWish.ONE);

    List<Refusal> refusals = refused(request);

    assertThat(refusals)
        .contains(
            new Refusal(
                Rule.LENGTH,
                "The session is to last 45 minutes at most.",
                "It needs 25 minutes more."),
            new Refusal(
                Rule.STOPS, "There are to be at least three stops.", "Two stops would fit."));
  }

  @Test
  void outfitsWithoutAPlaceToChangeAreRefusedWithWhatHelps() {
    PlanRequest request =
        new Evening(FOUR, SUNSET, 90)
            .spot(1, "Reed Bank", 235, 0)
            .spot(3, "Mill Wall", 235, 0)
            .request(TWO, new OutfitWish(2, 10, false));

    assertThat(refused(request))
        .containsExactly(
            new Refusal(
                Rule.OUTFITS,
                "Two outfits are to be worn, with ten minutes for each change at a place to"
                    + " change.",
                "A changing tent would help; one outfit would fit."));
  }

  /** The light is alike from end to end, so nothing but the middle speaks for a moment. */
  @Test
  void ofEquallyGoodMomentsTheOutfitIsChangedInTheMiddle() {
    PlanRequest request =
        new Evening(FOUR, SUNSET, 60)
            .spot(2, "Poplar Avenue", 235, 0)
            .request(new StopLimits(1, 1, 5), new OutfitWish(2, 10, false));

    PlannedStop stop = plan(request).stops().get(0);
    OutfitChange change = Objects.requireNonNull(stop.changeWithin());

    Duration first = Duration.between(stop.shootFrom(), change.from());
    Duration second = Duration.between(change.until(), stop.shootUntil());
    assertThat(first.plus(second)).isEqualTo(Duration.ofMinutes(30));
    assertThat(first.minus(second).abs()).isLessThanOrEqualTo(Duration.ofMinutes(5));
  }

  @Test
  void underAnOvercastSkyTheFacingsDoNotMatterAndTheDifferenceIsTold() {
    PlanRequest request =
        new Evening(FOUR, SUNSET, 75)
            .spot(1, "Reed Bank", 235, 0)
            .spot(2, "East Gate", 55, 0)
            .spot(9, "Mill Wall", 235, 0)
            .request(TWO, OutfitWish.ONE);
    SessionPlan clear = plan(request);
    Planner.Alternative overcast = Planner.overcast(request, clear);

    assertThat(clear.order()).containsExactlyInAnyOrder(1L, 9L);
    PlanOutcome.Planned planned = (PlanOutcome.Planned) overcast.outcome();
    assertThat(planned.plan().order()).containsExactlyInAnyOrder(1L, 2L);
    assertThat(overcast.differs()).contains("Mill Wall is no stop.");
    assertThat(overcast.differs()).anyMatch(text -> text.startsWith("East Gate is a stop, from "));
  }

  @Test
  void aStopHasTheNearestSpotOfLikeLightOrUnderCoverToFallBackOn() {
    SessionPlan plan =
        plan(
            town(90)
                .spot(7, "Far Meadow", 235, 0)
                .underCover(8, "Arcade")
                .request(TWO, OutfitWish.ONE));

    for (PlannedStop stop : plan.stops()) {
      assertThat(stop.fallback()).isNotNull();
      assertThat(plan.order()).doesNotContain(stop.fallback().spotId());
    }
  }

  @Test
  void anOrderByHandIsTimedAndItsCostTold() {
    PlanRequest request =
        new Evening(FOUR, LocalTime.of(18, 10), 90)
            .spot(1, "Reed Bank", 235, 0)
            .spot(2, "East Gate", 55, 0)
            .request(TWO, OutfitWish.ONE);
    SessionPlan best = plan(request);
    List<Long> other = List.of(best.order().get(1), best.order().get(0));

    Planner.ByHand byHand = Planner.byHand(request, other, Map.of());

    assertThat(((PlanOutcome.Planned) byHand.outcome()).plan().order()).isEqualTo(other);
    assertThat(byHand.lostLightMin()).isPositive();
    assertThat(byHand.cost())
        .isEqualTo(
            "This order is worth %.1f light minutes less than the best plan."
                .formatted(byHand.lostLightMin()));
    assertThatThrownBy(() -> Planner.byHand(request, List.of(1L, 1L), Map.of()))
        .hasMessageContaining("expected different candidates");
    assertThatThrownBy(() -> Planner.byHand(request, List.of(4L), Map.of()))
        .hasMessageContaining("found [4]");
  }

  private static Evening town(int lengthMin) {
    return new Evening(FOUR, SUNSET, lengthMin)
        .spot(1, "Reed Bank", 235, 0)
        .spot(2, "Mill Wall", 235, 0)
        .spot(3, "Old Bridge", 140, 0);
  }

  private static Claim locked(Integer position, LocalTime shootFrom) {
    return new Claim(Claim.State.LOCKED, position, Evening.at(shootFrom));
  }

  private static SessionPlan plan(PlanRequest request) {
    return ((PlanOutcome.Planned) Planner.plan(request)).plan();
  }

  private static List<Refusal> refused(PlanRequest request) {
    return ((PlanOutcome.Refused) Planner.plan(request)).refusals();
  }

  private static Rejected rejected(SessionPlan plan, long spotId) {
    return plan.rejected().stream()
        .filter(found -> found.spotId() == spotId)
        .findFirst()
        .orElseThrow();
  }
}

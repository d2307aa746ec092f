package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.DriveSource;
import org.lightledger.session.drive.DriveTable;

/** Makes requests with every rule in play, small enough to try out every plan. */
final class RandomRequests {
  static final Instant START = Instant.parse("2026-06-01T17:00:00Z");

  private final Random random;

  RandomRequests(long seed) {
    this.random = new Random(seed);
  }

  /** A request with up to so many candidates and a frame of up to so many steps of the grid. */
  PlanRequest next(int mostCandidates, int mostSteps) {
    int gridMin = random.nextBoolean() ? 10 : 5;
    int spanMin = gridMin * between(mostSteps / 2, mostSteps) + random.nextInt(gridMin);
    int lengthMin = Math.max(1, spanMin - random.nextInt(gridMin * 4));
    SessionFrame frame =
        new SessionFrame(
            ZoneId.of("Europe/Madrid"),
            LocalDate.of(2026, 6, 1),
            START,
            START.plus(Duration.ofMinutes(spanMin)),
            lengthMin,
            gridMin);
    int least = between(1, 2);
    StopLimits limits = new StopLimits(least, between(least, 4), random.nextInt(7));
    OutfitWish outfits = new OutfitWish(between(1, 3), between(3, 12), random.nextInt(4) == 0);
    List<PlanCandidate> candidates = new ArrayList<>();
    int count = between(2, mostCandidates);
    for (int i = 0; i < count; i++) {
      candidates.add(candidate(i + 1, gridMin, spanMin));
    }
    return new PlanRequest(
        frame, limits, outfits, Sky.CLEAR, candidates, drives(candidates), List.of());
  }

  private PlanCandidate candidate(int id, int gridMin, int spanMin) {
    int leastMin = between(1, 2 * gridMin);
    SpotSunlight light = light(spanMin);
    return new PlanCandidate(
        id,
        "Spot " + id,
        new GeoPoint(42 + 0.01 * id, -6),
        light,
        light,
        LightWeights.USUAL,
        leastMin,
        leastMin + random.nextInt(3 * gridMin),
        hours(spanMin),
        random.nextBoolean(),
        claim(spanMin),
        random.nextInt(3) / 2.0);
  }

  private SpotSunlight light(int spanMin) {
    int offsetMin = random.nextInt(3);
    List<SpotSunlight.AlongFacing> along = new ArrayList<>();
    for (int facing = 0; facing < between(1, 2); facing++) {
      List<SpotSunlight.Minute> minutes = new ArrayList<>();
      SpotSunlight.Minute minute = minute();
      for (int i = 0; i < spanMin; i++) {
        minute = random.nextInt(12) == 0 ? minute() : minute;
        minutes.add(minute);
      }
      along.add(
          new SpotSunlight.AlongFacing(
              new Bearing(90 * facing), Answer.FacingBasis.KNOWN, minutes));
    }
    List<@Nullable Boolean> direct = new ArrayList<>();
    for (int i = 0; i < spanMin; i++) {
      direct.add(i < spanMin / 2);
    }
    return new SpotSunlight(START.minus(Duration.ofMinutes(offsetMin)), along, direct);
  }

  private SpotSunlight.Minute minute() {
    return new SpotSunlight.Minute(
        LightClass.values()[random.nextInt(LightClass.values().length)],
        Answer.Tier.values()[random.nextInt(3)],
        random.nextInt(10));
  }

  private List<OpenWindow> hours(int spanMin) {
    if (random.nextInt(3) > 0) {
      return List.of();
    }
    int opens = random.nextInt(spanMin) - spanMin / 4;
    return List.of(
        new OpenWindow(
            START.plus(Duration.ofMinutes(opens)),
            START.plus(Duration.ofMinutes(opens + 5 + random.nextInt(spanMin)))));
  }

  private Claim claim(int spanMin) {
    return switch (random.nextInt(40)) {
      case 0 -> Claim.EXCLUDED;
      case 1 -> Claim.LOCKED;
      case 2 -> new Claim(Claim.State.LOCKED, between(1, 2), null);
      case 3 ->
          new Claim(
              Claim.State.LOCKED, null, START.plus(Duration.ofMinutes(random.nextInt(spanMin))));
      default -> Claim.FREE;
    };
  }

  private DriveTable drives(List<PlanCandidate> candidates) {
    Map<DriveTable.Leg, Drive> between = new HashMap<>();
    Map<Long, Drive> meeting = new HashMap<>();
    boolean meets = random.nextBoolean();
    for (PlanCandidate from : candidates) {
      for (PlanCandidate to : candidates) {
        if (from != to && random.nextInt(20) > 0) {
          between.put(new DriveTable.Leg(from.spotId(), to.spotId()), drive());
        }
      }
      if (meets) {
        meeting.put(from.spotId(), drive());
      }
    }
    return new DriveTable(between, meeting);
  }

  private Drive drive() {
    return new Drive(random.nextInt(13), DriveSource.OWNER, "Your own minutes.");
  }

  private int between(int least, int most) {
    return least + random.nextInt(most - least + 1);
  }
}

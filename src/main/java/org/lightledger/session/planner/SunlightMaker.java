package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.Sky;
import org.lightledger.ask.SpotLight;
import org.lightledger.ask.SpotView;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunEphemeris;

/**
 * Tells the light of spots for the planner by the rules of the answers to questions, so that a plan
 * never says other than an answer does.
 */
public final class SunlightMaker {
  /** Where any direction works one looks every so many degrees. Own choice. */
  static final int OPEN_STEP_DEG = 10;

  /** The evidence is looked up in the middle of so many minutes; the sun moves 1.25 degrees. */
  private static final int TIER_EVERY_MIN = 5;

  private static final Duration HALF_A_MINUTE = Duration.ofSeconds(30);

  private final SunCurve curve;
  private final Instant from;
  private final int minutes;

  /**
   * Tells the light of a stretch of time.
   *
   * @param sun where the sun is
   * @param from its start
   * @param minutes its length, 1 to 1440 minutes
   * @throws IllegalArgumentException when the length is out of its interval
   */
  public SunlightMaker(SunEphemeris sun, Instant from, int minutes) {
    if (minutes < 1 || minutes > 1440) {
      throw new IllegalArgumentException("expected 1 to 1440 minutes, found " + minutes);
    }
    this.curve = SunCurve.of(sun, from.minus(Duration.ofDays(1)), from.plus(Duration.ofDays(2)));
    this.from = from;
    this.minutes = minutes;
  }

  /**
   * Tells the light of one spot: along its facings, or every {@value #OPEN_STEP_DEG} degrees where
   * any direction works or no facing is known.
   *
   * @param spot the spot
   * @param skyline what stands around it; null when nothing is known
   * @param observations what its shots tell
   * @param sky what the sky is like
   * @return the light
   */
  public SpotSunlight of(
      Spot spot, @Nullable Skyline skyline, List<Observation> observations, Sky sky) {
    List<SpotSunlight.AlongFacing> along = new ArrayList<>();
    List<@Nullable Boolean> direct = new ArrayList<>();
    for (SpotView view : views(spot, skyline, observations, sky)) {
      along.add(along(view, along.isEmpty() ? direct : null));
    }
    return new SpotSunlight(from, along, direct);
  }

  private List<SpotView> views(
      Spot spot, @Nullable Skyline skyline, List<Observation> observations, Sky sky) {
    List<SpotView> views = new ArrayList<>();
    if (spot.open() || spot.facings().isEmpty()) {
      Answer.FacingBasis basis =
          spot.open() ? Answer.FacingBasis.OPEN : Answer.FacingBasis.SUGGESTED;
      for (int facingDeg = 0; facingDeg < 360; facingDeg += OPEN_STEP_DEG) {
        views.add(
            new SpotView(curve, spot, new Bearing(facingDeg), basis, skyline, observations, sky));
      }
    } else {
      for (Facing facing : spot.facings()) {
        views.add(
            new SpotView(
                curve,
                spot,
                facing.bearing(),
                Answer.FacingBasis.KNOWN,
                skyline,
                observations,
                sky));
      }
    }
    return views;
  }

  /** The light along a facing; whether the sun reaches the spot is the same along each. */
  private SpotSunlight.AlongFacing along(SpotView view, @Nullable List<@Nullable Boolean> direct) {
    List<SpotSunlight.Minute> told = new ArrayList<>(minutes);
    Answer.Tier tier = Answer.Tier.GEOMETRY;
    for (int minute = 0; minute < minutes; minute++) {
      Instant middle = from.plus(Duration.ofMinutes(minute)).plus(HALF_A_MINUTE);
      SpotLight light = view.lightAt(middle);
      if (minute % TIER_EVERY_MIN == 0) {
        tier = view.tierAt(middle.plus(Duration.ofMinutes(TIER_EVERY_MIN / 2)));
      }
      told.add(new SpotSunlight.Minute(light.light(), tier, light.marginDeg()));
      if (direct != null) {
        direct.add(isDark(light.light()) ? Boolean.FALSE : light.directSun());
      }
    }
    return new SpotSunlight.AlongFacing(view.facing(), view.basis(), told);
  }

  private static boolean isDark(LightClass light) {
    return light == LightClass.TWILIGHT || light == LightClass.DARK;
  }
}

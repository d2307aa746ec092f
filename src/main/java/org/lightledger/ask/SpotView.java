package org.lightledger.ask;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * The light at a spot along one facing, at any moment, by the rules by which questions are
 * answered: who plans with it agrees with the answers.
 *
 * @param sun where the sun is
 * @param spot the spot
 * @param facing where the camera looks
 * @param basis why it looks there
 * @param skyline what stands around the spot; null when nothing is known
 * @param observations what its shots tell
 * @param sky what the sky is like
 */
public record SpotView(
    SunEphemeris sun,
    Spot spot,
    Bearing facing,
    Answer.FacingBasis basis,
    @Nullable Skyline skyline,
    List<Observation> observations,
    Sky sky) {

  /** Keeps its own copy. */
  public SpotView {
    observations = List.copyOf(observations);
  }

  /**
   * The light at a moment.
   *
   * @param instant when, within what the ephemeris serves
   * @return class, direct sun and margin
   */
  public SpotLight lightAt(Instant instant) {
    return SpotLight.of(sun.direction(instant, spot.position()), facing, skyline, sky);
  }

  /**
   * What the answer for a moment rests on.
   *
   * @param instant when, within what the ephemeris serves
   * @return the tier of evidence
   */
  public Answer.Tier tierAt(Instant instant) {
    SunDirection there = sun.direction(instant, spot.position());
    SpotLight light = SpotLight.of(there, facing, skyline, sky);
    Candidate candidate = new Candidate(spot, facing, basis, instant, there, light, skyline, 1);
    return Ranked.of(candidate, observations).tier();
  }
}

package org.lightledger.session.outgoing;

import java.time.ZoneId;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.ask.StayLight;
import org.lightledger.geo.Bearing;
import org.lightledger.session.KeptPlan;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunEphemeris;

/** The light at a stop of a kept plan, by what is known now. */
public final class StopLight {
  private StopLight() {}

  /**
   * Tells the light from the first picture to the last.
   *
   * @param sun where the sun is
   * @param stop the stop
   * @param spot its spot
   * @param skyline what stands around it, or null when nothing is known
   * @param sky what the sky is like
   * @param zone the zone of the session
   * @return the light, or null when no facing was kept for the stop
   */
  public static @Nullable StayLight of(
      SunEphemeris sun,
      KeptPlan.Stop stop,
      Spot spot,
      @Nullable Skyline skyline,
      Sky sky,
      ZoneId zone) {
    Bearing facing = stop.facing();
    return facing == null
        ? null
        : StayLight.of(
            sun,
            new StayLight.Stay(
                spot.position(), zone, facing, skyline, sky, stop.shootFrom(), stop.shootUntil()));
  }
}

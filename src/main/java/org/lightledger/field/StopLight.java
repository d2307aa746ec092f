package org.lightledger.field;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.ask.SpotLight;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.SunCare;
import org.lightledger.skyline.DirectSun;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/**
 * The light of a stop while pictures are taken.
 *
 * @param stretches which light from when to when, in order
 * @param directUntil when the direct sun of the stop ends, also after its pictures; null when there
 *     is none, or its end is not known
 * @param atMost true when that end rests on a skyline that may be higher than is known
 */
public record StopLight(List<Stretch> stretches, @Nullable Instant directUntil, boolean atMost) {

  /** Keeps an own copy of the stretches. */
  public StopLight {
    stretches = List.copyOf(stretches);
  }

  /**
   * A stretch of one light, to a minute.
   *
   * @param from its start
   * @param to its end
   * @param light the class
   * @param directSun whether the sun reaches the spot; null when that is not known
   * @param sun where the sun stands in its middle
   */
  public record Stretch(
      Instant from, Instant to, LightClass light, @Nullable Boolean directSun, SunDirection sun) {

    /**
     * Whether one looks towards a low sun that may be seen.
     *
     * @return true when the warning of the sun is due
     */
    public boolean needsSunCare() {
      return SunCare.isDue(light, sun.apparentAltitudeDeg());
    }
  }

  /**
   * Tells the light of a stop, minute by minute, each by its middle.
   *
   * @param sun knows where the sun is
   * @param place the spot
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @param sky what the sky is like
   * @param from when pictures begin
   * @param until when they end, later
   * @return the light
   */
  public static StopLight of(
      SunEphemeris sun,
      GeoPoint place,
      Bearing facing,
      @Nullable Skyline skyline,
      Sky sky,
      Instant from,
      Instant until) {
    SunCurve curve = SunCurve.of(sun, from.minusSeconds(3600), until.plusSeconds(86_400));
    List<Stretch> stretches = new ArrayList<>();
    Instant start = from;
    @Nullable SpotLight before = null;
    for (Instant at = from; at.isBefore(until); at = at.plusSeconds(60)) {
      SpotLight light =
          SpotLight.of(curve.direction(at.plusSeconds(30), place), facing, skyline, sky);
      if (before != null && !isSame(before, light)) {
        stretches.add(stretch(start, at, before, curve, place));
        start = at;
      }
      before = light;
    }
    if (before != null) {
      stretches.add(stretch(start, until, before, curve, place));
    }
    Optional<DirectSun.Stretch> end =
        skyline == null || sky == Sky.OVERCAST
            ? Optional.empty()
            : directEnd(curve, skyline, place, from, until);
    return new StopLight(
        stretches,
        end.map(DirectSun.Stretch::to).orElse(null),
        end.map(DirectSun.Stretch::lowerBoundOnly).orElse(false));
  }

  private static Optional<DirectSun.Stretch> directEnd(
      SunCurve curve, Skyline skyline, GeoPoint place, Instant from, Instant until) {
    return DirectSun.over(curve, skyline, place, from, until.plusSeconds(6 * 3600))
        .stretches()
        .stream()
        .filter(stretch -> stretch.from().isBefore(until))
        .filter(stretch -> stretch.to().isBefore(until.plusSeconds(6 * 3600)))
        .reduce((one, later) -> later);
  }

  private static boolean isSame(SpotLight one, SpotLight other) {
    return one.light() == other.light()
        && String.valueOf(one.directSun()).equals(String.valueOf(other.directSun()));
  }

  private static Stretch stretch(
      Instant from, Instant to, SpotLight light, SunCurve curve, GeoPoint place) {
    Instant middle = Instant.ofEpochMilli((from.toEpochMilli() + to.toEpochMilli()) / 2);
    return new Stretch(from, to, light.light(), light.directSun(), curve.direction(middle, place));
  }
}

package org.lightledger.ask;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunEphemeris;

/** Tells when a spot has a light: every window of a range of days. */
public final class SpotWindows {
  private SpotWindows() {}

  /**
   * Finds the windows. Their ends are exact to a tenth of a second on the sun's curve; a window
   * ends with the local day.
   *
   * @param sun where the sun is
   * @param place the spot
   * @param zone the zone of the place
   * @param facing where the camera looks
   * @param skyline what stands around the spot; null when nothing is known
   * @param lights which light is wanted, at least one class
   * @param first first local day
   * @param last last local day, at most {@value Question#MOST_DAYS} days in all
   * @return the windows, in order of time
   * @throws IllegalArgumentException when the range is reversed or too long, or no light is wanted
   */
  public static List<Answer.Window> of(
      SunEphemeris sun,
      GeoPoint place,
      ZoneId zone,
      Bearing facing,
      @Nullable Skyline skyline,
      Set<LightClass> lights,
      LocalDate first,
      LocalDate last) {
    if (lights.isEmpty()) {
      throw new IllegalArgumentException("expected at least one light class, found none");
    }
    Rehearsal.Free range = Rehearsal.Free.always(first, last);
    SunCurve curve =
        SunCurve.of(
            sun,
            range.first().minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
            range.last().plusDays(4).atStartOfDay(ZoneOffset.UTC).toInstant());
    WindowFinder finder = new WindowFinder(curve);
    WindowFinder.View view = new WindowFinder.View(place, facing, skyline, zone, Sky.CLEAR);
    List<Answer.Window> windows = new ArrayList<>();
    for (LocalDate day = first; !day.isAfter(last); day = day.plusDays(1)) {
      windows.addAll(finder.of(day, view, lights));
    }
    return windows;
  }
}

package org.lightledger.field;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;

/**
 * A spot as a phone takes it along: all that it needs to tell the light of one day by looking it
 * up. Lists of the sun hold one value for each minute of the day, for the minute's middle.
 *
 * @param spot the spot
 * @param hazards what to mind there
 * @param declinationDeg from true to magnetic north on that day, degrees in (-180, 180], clockwise;
 *     null when no magnetic model holds for the day
 * @param azimuthTenths the sun's azimuth, tenths of a degree in [0, 3600), true, clockwise from
 *     north
 * @param altitudeTenths the sun's apparent altitude, tenths of a degree
 * @param direct whether the sun reaches the spot: codes of {@link Reach}
 * @param facings the light along each facing; none when no facing is known
 */
public record FieldSpot(
    Spot spot,
    Set<Hazard> hazards,
    @Nullable Double declinationDeg,
    List<Integer> azimuthTenths,
    List<Integer> altitudeTenths,
    List<DayRun> direct,
    List<FacingLight> facings) {

  /** Whether the sun reaches a spot. */
  public enum Reach {
    /** It does. */
    DIRECT("direct"),
    /** Something known hides it. */
    SHADE("shade"),
    /** The skyline is as near to it as it may be wrong. */
    NOT_CERTAIN("not-certain"),
    /** Nothing sure is known of what stands there. */
    NOT_KNOWN("not-known"),
    /** It is below the horizon. */
    DOWN("down");

    private final String code;

    Reach(String code) {
      this.code = code;
    }

    /**
     * The word in a package.
     *
     * @return for example "not-known"
     */
    public String code() {
      return code;
    }
  }

  /** Keeps own copies. */
  public FieldSpot {
    hazards = Set.copyOf(hazards);
    azimuthTenths = List.copyOf(azimuthTenths);
    altitudeTenths = List.copyOf(altitudeTenths);
    direct = List.copyOf(direct);
    facings = List.copyOf(facings);
  }
}

package org.lightledger.ask;

import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Clearance;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;

/**
 * The light at one spot along one facing, at the moment of the question that fits best.
 *
 * @param spot the spot
 * @param facing where the camera looks
 * @param facingBasis why it looks there
 * @param at the moment
 * @param light the class of the light
 * @param sun where the sun stands at the moment
 * @param relativeBearingDeg signed turn from the facing to the sun, degrees in (-180, 180]
 * @param marginDeg how far the sun may move before the class changes, degrees, 0 or more
 * @param directSun whether the sun reaches the spot; null while the skyline is not known
 * @param skylineDeg the skyline's altitude below the sun, degrees; null while it is not known
 * @param clearance how the sun stands to the skyline, with what it rests on; null while nothing is
 *     known there
 * @param directUntil when the sun leaves the spot on that day; null unless it is known to reach it
 *     at the moment
 * @param window how long the light lasts around the moment
 * @param others the other windows of that day with a wanted light along the facing that reach into
 *     the asked hours, in order of time; none where a single moment is asked for
 * @param tier what the answer rests on
 * @param nearestShot the shot taken in the nearest light, or null when the spot has none
 * @param days on how many days of the question the light is there
 * @param reason one sentence that says why
 */
public record Answer(
    Spot spot,
    Bearing facing,
    FacingBasis facingBasis,
    OffsetDateTime at,
    LightClass light,
    SunDirection sun,
    double relativeBearingDeg,
    double marginDeg,
    @Nullable Boolean directSun,
    @Nullable Double skylineDeg,
    @Nullable Clearance clearance,
    @Nullable OffsetDateTime directUntil,
    Window window,
    List<Other> others,
    Tier tier,
    @Nullable NearestShot nearestShot,
    int days,
    String reason) {

  /**
   * A shot shows like light when the sun gap is at most this; degrees. Own choice: the sun moves as
   * far in 40 minutes.
   */
  public static final double LIKE_LIGHT_GAP_DEG = 10;

  /** Keeps its own copy. */
  public Answer {
    others = List.copyOf(others);
  }

  /** Why the camera looks along a facing. */
  public enum FacingBasis {
    /** It is one of the spot's facings. */
    KNOWN,
    /** The spot is open: any direction works, and this one gives the light. */
    OPEN,
    /** No facing is known; this direction would give the light. */
    SUGGESTED
  }

  /** What an answer rests on, strongest first. */
  public enum Tier {
    /** A shot in like light. */
    SCOUTED("scouted"),
    /** The skyline is known. */
    MODELLED("modelled"),
    /** The sun and the facing alone. */
    GEOMETRY("geometry");

    private final String label;

    Tier(String label) {
      this.label = label;
    }

    /**
     * The word in output.
     *
     * @return for example "scouted"
     */
    public String label() {
      return label;
    }
  }

  /**
   * A start and an end between which the light holds, within the local day.
   *
   * @param from start
   * @param to end
   */
  public record Window(OffsetDateTime from, OffsetDateTime to) {}

  /**
   * Another window.
   *
   * @param light the class of its light
   * @param window from when to when
   */
  public record Other(LightClass light, Window window) {}

  /**
   * The shot taken in the nearest light.
   *
   * @param shotId the shot
   * @param sunGapDeg the sun gap between the shot and the moment, degrees in [0, 180]
   */
  public record NearestShot(long shotId, double sunGapDeg) {}
}

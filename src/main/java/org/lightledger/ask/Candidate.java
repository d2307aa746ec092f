package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;

/** A spot and a facing that have the light at a moment. */
record Candidate(
    Spot spot,
    Bearing facing,
    Answer.FacingBasis basis,
    Instant instant,
    SunDirection sun,
    SpotLight light,
    @Nullable Skyline skyline,
    int days) {

  Candidate onDays(int count) {
    return new Candidate(spot, facing, basis, instant, sun, light, skyline, count);
  }

  /** The same spot and facing at another moment. */
  Candidate at(Instant moment, SunDirection sunThen, SpotLight lightThen) {
    return new Candidate(spot, facing, basis, moment, sunThen, lightThen, skyline, days);
  }

  /** The local day of the moment. */
  LocalDate day() {
    return LocalDate.ofInstant(instant, zone());
  }

  private ZoneId zone() {
    return Objects.requireNonNull(spot.zone(), "a candidate's zone is known");
  }

  double relativeBearingDeg() {
    return facing.turnToDeg(sun.azimuth());
  }

  /**
   * Whether the light was of this kind when a shot was taken here, as far as the skyline tells: the
   * sun on the place, hidden from it, or down. A picture in the sun shows nothing of the shade that
   * comes ten minutes later, nor of an overcast sky.
   */
  boolean isLitAs(SunDirection sunThen, Bearing facingThen) {
    return Kind.of(light.light()) == Kind.of(SpotLight.classOf(sunThen, facingThen, skyline));
  }

  /** What a class has in common with others. */
  private enum Kind {
    SUN,
    SHADE,
    DOWN;

    static Kind of(LightClass light) {
      return switch (light) {
        case BACKLIT, RIM, SIDE, THREE_QUARTER_FRONT, FRONT, OVERHEAD -> SUN;
        case OPEN_SHADE -> SHADE;
        case TWILIGHT, DARK -> DOWN;
      };
    }
  }

  WindowFinder.View view(Sky sky) {
    return new WindowFinder.View(spot.position(), facing, skyline, zone(), sky);
  }
}

package org.lightledger.ask;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
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

  WindowFinder.View view(Sky sky) {
    return new WindowFinder.View(spot.position(), facing, skyline, zone(), sky);
  }
}

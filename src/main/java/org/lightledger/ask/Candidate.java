package org.lightledger.ask;

import java.time.Instant;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;

/** A spot and a facing that have the light, at their best moment. */
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

  double relativeBearingDeg() {
    return facing.turnToDeg(sun.azimuth());
  }

  WindowFinder.View view(Sky sky) {
    return new WindowFinder.View(
        spot.position(),
        facing,
        skyline,
        Objects.requireNonNull(spot.zone(), "a candidate's zone is known"),
        sky);
  }
}

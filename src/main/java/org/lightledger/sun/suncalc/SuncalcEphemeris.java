package org.lightledger.sun.suncalc;

import java.time.Instant;
import java.time.ZoneOffset;
import org.lightledger.geo.Angles;
import org.lightledger.sun.SubsolarPoint;
import org.lightledger.sun.SunEphemeris;
import org.shredzone.commons.suncalc.SunPosition;

/**
 * The sun by commons-suncalc. The library is asked once per instant, at the north pole, where the
 * altitude is the declination and the azimuth is the hour angle turned by half a circle; so its
 * place-dependent defaults (the clock's now, the machine's zone) never take part.
 */
public final class SuncalcEphemeris implements SunEphemeris {

  @Override
  public SubsolarPoint at(Instant instant) {
    SunPosition seenFromPole =
        SunPosition.compute().on(instant.atZone(ZoneOffset.UTC)).at(90.0, 0.0).execute();
    return new SubsolarPoint(
        seenFromPole.getTrueAltitude(), Angles.normalizeDeg(seenFromPole.getAzimuth() - 180.0));
  }
}

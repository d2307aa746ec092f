package org.lightledger.scenario;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.Set;
import org.lightledger.scenario.render.Outfit;
import org.lightledger.scenario.render.Weather;

/**
 * One scouting shot to be taken in the model.
 *
 * @param file where it goes, relative to the sample folder
 * @param spot name of the spot
 * @param facingDeg true bearing of the view
 * @param local when, on the town's clocks
 * @param body the camera
 * @param upright whether the picture is taller than wide
 * @param focalMm focal length, 35 mm equivalent
 * @param fNumber relative aperture
 * @param distanceM from the camera to the stand-in
 * @param offsetDeg how far right of the view's middle the stand-in stands, degrees
 * @param pitchDeg how far up the camera looks, degrees
 * @param weather the air and sky
 * @param outfit what the stand-in wears
 * @param turnDeg how far the stand-in turns from facing the camera, degrees
 * @param bias exposure compensation, stops; positive is brighter
 * @param faults what is wrong on purpose with the file
 */
record ShotPlan(
    String file,
    String spot,
    double facingDeg,
    LocalDateTime local,
    Body body,
    boolean upright,
    double focalMm,
    double fNumber,
    double distanceM,
    double offsetDeg,
    double pitchDeg,
    Weather weather,
    Outfit outfit,
    double turnDeg,
    double bias,
    Set<Fault> faults) {
  /** The town's time zone. */
  static final ZoneId ZONE = ZoneId.of("Europe/Madrid");

  /** The shot's true moment. */
  ZonedDateTime moment() {
    return local.atZone(ZONE);
  }
}

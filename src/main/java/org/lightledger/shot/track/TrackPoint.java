package org.lightledger.shot.track;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * One fix of a receiver.
 *
 * @param instant when
 * @param point where
 * @param altitudeM height above sea level, metres, or null when not known
 * @param errorM horizontal error, metres, greater than 0, or null when not stated
 */
public record TrackPoint(
    Instant instant, GeoPoint point, @Nullable Double altitudeM, @Nullable Double errorM) {}

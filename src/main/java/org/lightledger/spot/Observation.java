package org.lightledger.spot;

import java.time.OffsetDateTime;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.sun.SunDirection;

/**
 * What one shot tells about the light at its spot.
 *
 * @param shotId the ledger's number of the shot
 * @param at when it was taken
 * @param sun where the sun stood
 * @param facing where the camera looked, or null when not known
 * @param ev100 exposure value at ISO 100, or null when not known
 */
public record Observation(
    long shotId,
    OffsetDateTime at,
    SunDirection sun,
    @Nullable Bearing facing,
    @Nullable Double ev100) {}

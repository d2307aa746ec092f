package org.lightledger.sun;

import java.time.Instant;

/**
 * An instant with the sun's direction at it.
 *
 * @param at when
 * @param direction where the sun stands then
 */
public record SunMoment(Instant at, SunDirection direction) {}

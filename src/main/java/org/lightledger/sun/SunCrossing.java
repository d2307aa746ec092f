package org.lightledger.sun;

import java.time.Instant;

/**
 * The sun's centre passes an altitude.
 *
 * @param at when, to the millisecond
 * @param rising true when it climbs, false when it sinks
 */
public record SunCrossing(Instant at, boolean rising) {}

package org.lightledger.sun;

import java.time.Instant;

/**
 * Something that happens to the sun at an instant.
 *
 * @param kind what happens
 * @param at when, to the millisecond
 * @param direction where the sun stands then
 */
public record SunEvent(SunEventKind kind, Instant at, SunDirection direction) {}

package org.lightledger.session.planner;

import java.time.Instant;
import org.lightledger.light.LightClass;

/**
 * A part of a stay in one light, to the minute.
 *
 * @param from its start
 * @param until its end
 * @param light the light along the facing that is used
 */
public record LightStretch(Instant from, Instant until, LightClass light) {}

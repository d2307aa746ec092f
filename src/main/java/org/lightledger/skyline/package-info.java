/**
 * The skyline of a spot: how high the sun must stand, azimuth by azimuth, to reach it.
 *
 * <p>Azimuths are true, in degrees clockwise from north; altitudes are apparent, in degrees.
 */
@NullMarked
package org.lightledger.skyline;

import org.jspecify.annotations.NullMarked;

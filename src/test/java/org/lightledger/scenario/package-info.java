/**
 * The demo's invented town Brezaluz as one three-dimensional model, and what is made from it: the
 * sample scouting photos. Nothing here is a real place, business or person; only the stretch of
 * land that the coordinates fall on exists, and it does not look like this.
 *
 * <p>Places in the model are local metres east and north of {@link LocalFrame#origin()}, heights
 * are metres above the river's water, itself {@link Terrain#WATER_ELEVATION_M} above sea level.
 */
@NullMarked
package org.lightledger.scenario;

import org.jspecify.annotations.NullMarked;

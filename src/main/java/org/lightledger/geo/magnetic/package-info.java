/** The earth's magnetic field, for turning a compass direction into a true one. */
@NullMarked
package org.lightledger.geo.magnetic;

import org.jspecify.annotations.NullMarked;

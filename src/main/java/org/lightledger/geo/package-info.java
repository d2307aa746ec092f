/** Places and bearings on the WGS 84 ellipsoid. */
@NullMarked
package org.lightledger.geo;

import org.jspecify.annotations.NullMarked;

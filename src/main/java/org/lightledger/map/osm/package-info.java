/** Reads OpenStreetMap extracts, XML and PBF. */
@NullMarked
package org.lightledger.map.osm;

import org.jspecify.annotations.NullMarked;

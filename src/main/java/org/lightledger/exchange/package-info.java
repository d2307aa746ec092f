/** Spots as files that other programs write and read: GeoJSON, KML and GPX. */
@NullMarked
package org.lightledger.exchange;

import org.jspecify.annotations.NullMarked;

/** Routes over the roads of an imported OpenStreetMap extract; the only user of GraphHopper. */
@NullMarked
package org.lightledger.session.drive.roads;

import org.jspecify.annotations.NullMarked;

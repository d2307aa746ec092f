/** What buildings and trees hide: skylines from footprints with heights. */
@NullMarked
package org.lightledger.skyline.buildings;

import org.jspecify.annotations.NullMarked;

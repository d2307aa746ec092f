/** What the land itself hides: skylines from elevation models. */
@NullMarked
package org.lightledger.skyline.terrain;

import org.jspecify.annotations.NullMarked;

/** Light classes, expected daylight and exposure. */
@NullMarked
package org.lightledger.light;

import org.jspecify.annotations.NullMarked;

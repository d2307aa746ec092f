/** From a place to the time zones that hold there. */
@NullMarked
package org.lightledger.shot.zone;

import org.jspecify.annotations.NullMarked;

/** The sun's position by commons-suncalc; the only user of that library. */
@NullMarked
package org.lightledger.sun.suncalc;

import org.jspecify.annotations.NullMarked;

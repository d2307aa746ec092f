/** Spots: places where a subject can stand, their facings and light profiles. */
@NullMarked
package org.lightledger.spot;

import org.jspecify.annotations.NullMarked;

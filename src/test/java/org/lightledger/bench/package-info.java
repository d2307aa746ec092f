/** Measurements, run by hand. */
@NullMarked
package org.lightledger.bench;

import org.jspecify.annotations.NullMarked;

/** The map of a region: what it holds, and where it lies on a screen. */
@NullMarked
package org.lightledger.map;

import org.jspecify.annotations.NullMarked;

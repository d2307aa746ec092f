/** Draws maps as pictures. */
@NullMarked
package org.lightledger.map.picture;

import org.jspecify.annotations.NullMarked;

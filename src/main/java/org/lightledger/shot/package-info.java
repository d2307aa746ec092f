/** A scouting shot: what its file says, and what we conclude from it. */
@NullMarked
package org.lightledger.shot;

import org.jspecify.annotations.NullMarked;

/** Chooses and orders the stops of a session so that the light wanted at each is best. */
@NullMarked
package org.lightledger.session.planner;

import org.jspecify.annotations.NullMarked;

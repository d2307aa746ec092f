/** Makes the skyline of each spot from everything that the ledger knows around it. */
@NullMarked
package org.lightledger.surroundings;

import org.jspecify.annotations.NullMarked;

/** Spots proposed to a client. */
@NullMarked
package org.lightledger.shortlist;

import org.jspecify.annotations.NullMarked;

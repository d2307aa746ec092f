/** What a phone takes along to a session, and what it brings back. */
@NullMarked
package org.lightledger.field;

import org.jspecify.annotations.NullMarked;

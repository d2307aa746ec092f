/** Writes calendar files (RFC 5545). */
@NullMarked
package org.lightledger.session.calendar;

import org.jspecify.annotations.NullMarked;

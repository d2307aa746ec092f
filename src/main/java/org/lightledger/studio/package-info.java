/**
 * The studio at work on a ledger: books sessions, tells their hours, their light, and what is due.
 */
@NullMarked
package org.lightledger.studio;

import org.jspecify.annotations.NullMarked;

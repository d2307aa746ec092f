/**
 * The owner's corrections: what a shot's file does not say or says wrongly, and how to undo them.
 */
@NullMarked
package org.lightledger.correction;

import org.jspecify.annotations.NullMarked;

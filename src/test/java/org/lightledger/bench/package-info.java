/** Measurements of speed; not run by the tests. */
@NullMarked
package org.lightledger.bench;

import org.jspecify.annotations.NullMarked;

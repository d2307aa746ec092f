/** What tests of several packages share. */
@NullMarked
package org.lightledger.testing;

import org.jspecify.annotations.NullMarked;

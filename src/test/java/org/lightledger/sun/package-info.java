/** Tests of the sun. */
@NullMarked
package org.lightledger.sun;

import org.jspecify.annotations.NullMarked;

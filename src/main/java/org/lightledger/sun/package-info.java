/** Where the sun stands, and when it crosses an altitude. */
@NullMarked
package org.lightledger.sun;

import org.jspecify.annotations.NullMarked;

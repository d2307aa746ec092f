/** Light classes and exposure. */
@NullMarked
package org.lightledger.light;

import org.jspecify.annotations.NullMarked;

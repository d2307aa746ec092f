/** Questions about light and their answers. */
@NullMarked
package org.lightledger.ask;

import org.jspecify.annotations.NullMarked;

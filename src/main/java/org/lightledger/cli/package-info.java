/** The command line. */
@NullMarked
package org.lightledger.cli;

import org.jspecify.annotations.NullMarked;

/** How long it takes to drive from one place to another, and how that is known. */
@NullMarked
package org.lightledger.session.drive;

import org.jspecify.annotations.NullMarked;

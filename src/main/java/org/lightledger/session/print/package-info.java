/** Makes printable files (PDF) from pages. */
@NullMarked
package org.lightledger.session.print;

import org.jspecify.annotations.NullMarked;

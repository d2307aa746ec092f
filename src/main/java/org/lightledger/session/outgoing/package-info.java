/**
 * What goes out about a session: messages from the owner's templates, the entries of a calendar,
 * and the call sheet of the studio. It composes and sends nothing.
 */
@NullMarked
package org.lightledger.session.outgoing;

import org.jspecify.annotations.NullMarked;

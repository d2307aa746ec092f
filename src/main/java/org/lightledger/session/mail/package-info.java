/** Makes e-mail drafts and hands messages to the owner's mail server. */
@NullMarked
package org.lightledger.session.mail;

import org.jspecify.annotations.NullMarked;

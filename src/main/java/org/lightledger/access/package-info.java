/** Who may open the owner's pages: the password, its sessions, and limits on how often to ask. */
@NullMarked
package org.lightledger.access;

import org.jspecify.annotations.NullMarked;

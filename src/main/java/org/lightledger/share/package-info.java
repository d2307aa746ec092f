/** What a client can see: redacted views, tokens and files that need no server. */
@NullMarked
package org.lightledger.share;

import org.jspecify.annotations.NullMarked;

/** Reads files into the ledger: walk, fingerprint, read, place, link, report. */
@NullMarked
package org.lightledger.indexing;

import org.jspecify.annotations.NullMarked;

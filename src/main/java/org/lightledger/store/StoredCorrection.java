package org.lightledger.store;

import java.time.Instant;

/**
 * A correction that can be undone.
 *
 * @param id the ledger's number of the correction
 * @param madeAt when the owner made it
 * @param words what it was, for the owner
 * @param shots how many shots it changed, 1 or more
 */
public record StoredCorrection(long id, Instant madeAt, String words, int shots) {}

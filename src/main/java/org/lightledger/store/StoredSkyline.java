package org.lightledger.store;

import java.time.Instant;
import java.util.List;
import org.lightledger.skyline.Skyline;

/**
 * The skyline of a spot, as the ledger keeps it.
 *
 * @param skyline the skyline; {@link Skyline#notKnown} when nothing is known around the spot
 * @param remarks what the owner should know of it, such as shots that exclude each other
 * @param madeAt when it was made
 * @param due whether one of its sources changed since
 */
public record StoredSkyline(Skyline skyline, List<String> remarks, Instant madeAt, boolean due) {

  /** Keeps its own copy. */
  public StoredSkyline {
    remarks = List.copyOf(remarks);
  }
}

package org.lightledger.store;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Stock;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;

/**
 * A ledger's spots, to ask about. The whole stock is kept in memory until the ledger's stock
 * changes. Safe for use by several threads.
 */
public final class LedgerStock implements Stock {
  private final Ledger ledger;
  private volatile @Nullable Snapshot snapshot;

  /**
   * The stock of a ledger.
   *
   * @param ledger an open ledger
   */
  public LedgerStock(Ledger ledger) {
    this.ledger = ledger;
  }

  private record Snapshot(long version, List<Spot> spots) {}

  @Override
  public List<Spot> spots(Question.@Nullable Near near) {
    return near == null
        ? all()
        : ledger.read(
            session ->
                session.spots().within(near.centre(), near.radiusM()).stream()
                    .map(NearSpot::spot)
                    .toList());
  }

  private List<Spot> all() {
    Snapshot kept = snapshot;
    if (kept == null || kept.version() != ledger.stockVersion()) {
      kept = ledger.read(session -> new Snapshot(session.stockVersion(), session.spots().all()));
      snapshot = kept;
    }
    return kept.spots();
  }

  @Override
  public Map<Long, List<Observation>> observations(Collection<Long> spotIds) {
    return ledger.read(session -> session.shots().observations(spotIds));
  }
}

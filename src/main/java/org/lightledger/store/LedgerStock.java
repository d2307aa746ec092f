package org.lightledger.store;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Stock;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/**
 * A ledger's spots, to ask about. The whole stock is kept in memory until the ledger's stock
 * changes. Safe for use by several threads.
 */
public final class LedgerStock implements Stock {
  /**
   * From so many skylines on, two connections read a half each: a skyline is seven kilobytes, and
   * to read and decode it costs more than all else of an answer.
   */
  private static final int MANY = 256;

  private final Ledger ledger;
  private volatile @Nullable Snapshot snapshot;
  private volatile @Nullable Looked looked;

  /**
   * The stock of a ledger.
   *
   * @param ledger an open ledger
   */
  public LedgerStock(Ledger ledger) {
    this.ledger = ledger;
  }

  private record Snapshot(long version, List<Spot> spots) {}

  private record Looked(long version, Set<Long> withSkyline) {}

  @Override
  public List<Spot> spots(Question.@Nullable Near near) {
    return near == null
        ? all()
        : ledger.read(
            session ->
                session.spotSearch().within(near.centre(), near.radiusM()).stream()
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
    return ledger.read(session -> session.observations().ofSpots(spotIds));
  }

  @Override
  public Set<Long> spotsWithSkyline() {
    Looked kept = looked;
    if (kept == null || kept.version() != ledger.stockVersion()) {
      kept =
          ledger.read(
              session -> new Looked(session.stockVersion(), session.skylines().spotsWithSkyline()));
      looked = kept;
    }
    return kept.withSkyline();
  }

  @Override
  public Map<Long, Skyline> skylines(Collection<Long> spotIds) {
    if (spotIds.size() < MANY) {
      return ledger.read(session -> session.skylines().ofSpots(spotIds));
    }
    List<Long> all = List.copyOf(spotIds);
    int half = all.size() / 2;
    Map<Long, Skyline> found = new HashMap<>();
    Stream.of(all.subList(0, half), all.subList(half, all.size()))
        .parallel()
        .map(part -> ledger.read(session -> session.skylines().ofSpots(part)))
        .toList()
        .forEach(found::putAll);
    return found;
  }

  @Override
  public Set<Long> spotsWith(Set<Trait> traits) {
    return ledger.read(session -> session.traits().spotsWith(traits));
  }
}

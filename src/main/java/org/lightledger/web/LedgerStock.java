package org.lightledger.web;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Stock;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;

/** The spots of the ledger, read within one snapshot. */
final class LedgerStock implements Stock {
  private final LedgerSession session;

  LedgerStock(LedgerSession session) {
    this.session = session;
  }

  @Override
  public List<Spot> spots(Question.@Nullable Near near) {
    return near == null
        ? session.spots().all()
        : session.spots().within(near.centre(), near.radiusM()).stream().map(NearSpot::spot).toList();
  }

  @Override
  public Map<Long, List<Observation>> observations(Collection<Long> spotIds) {
    return session.shots().observations(spotIds);
  }
}

package org.lightledger.studio;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Stock;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/** Some spots of a stock; what is known of each comes from the whole. */
abstract class StockPart implements Stock {
  private final Stock whole;

  StockPart(Stock whole) {
    this.whole = whole;
  }

  /** Whether a spot belongs to the part. */
  abstract boolean holds(Spot spot);

  @Override
  public final List<Spot> spots(Question.@Nullable Near near) {
    return whole.spots(near).stream().filter(this::holds).toList();
  }

  @Override
  public final Map<Long, List<Observation>> observations(Collection<Long> spotIds) {
    return whole.observations(spotIds);
  }

  @Override
  public final Set<Long> spotsWith(Set<Trait> traits) {
    return whole.spotsWith(traits);
  }

  @Override
  public final Set<Long> spotsWithSkyline() {
    return whole.spotsWithSkyline();
  }

  @Override
  public final Map<Long, Skyline> skylines(Collection<Long> spotIds) {
    return whole.skylines(spotIds);
  }
}

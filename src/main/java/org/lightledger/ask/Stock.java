package org.lightledger.ask;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/** The spots that a question is put to. */
public interface Stock {

  /**
   * The spots of the stock.
   *
   * @param near a circle on the ground, or null for all
   * @return the spots within it
   */
  List<Spot> spots(Question.@Nullable Near near);

  /**
   * What the shots of some spots tell.
   *
   * @param spotIds which spots
   * @return observations by spot; a spot without any may be absent
   */
  Map<Long, List<Observation>> observations(Collection<Long> spotIds);

  /**
   * The spots that are or have something.
   *
   * @param traits what, at least one
   * @return the numbers of the spots with all of them
   */
  Set<Long> spotsWith(Set<Trait> traits);

  /**
   * The spots around which something is known.
   *
   * @return their numbers
   */
  Set<Long> spotsWithSkyline();

  /**
   * What stands around some spots.
   *
   * @param spotIds which spots
   * @return skylines by spot; a spot around which nothing is known may be absent
   */
  Map<Long, Skyline> skylines(Collection<Long> spotIds);
}

package org.lightledger.studio;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.Stock;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.Drives;
import org.lightledger.session.drive.Place;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/** The spots of a stock that can be reached by car within so many minutes from a place. */
public final class DrivenStock implements Stock {
  private final Stock stock;
  private final Drives drives;
  private final Place from;
  private final int minutes;
  private final Map<Long, Drive> reached = new ConcurrentHashMap<>();

  /**
   * A stock within reach.
   *
   * @param stock the whole stock
   * @param drives how long drives take
   * @param from where the drive starts
   * @param minutes how long it takes at most, minutes, 0 or more
   */
  public DrivenStock(Stock stock, Drives drives, GeoPoint from, int minutes) {
    this.stock = stock;
    this.drives = drives;
    this.from = new Place(0, from);
    this.minutes = minutes;
  }

  /**
   * The drive to a spot, once the stock was asked for its spots.
   *
   * @param spotId the spot
   * @return the drive, or nothing when it is not within reach
   */
  public Optional<Drive> drive(long spotId) {
    return Optional.ofNullable(reached.get(spotId));
  }

  @Override
  public List<Spot> spots(Question.@Nullable Near near) {
    List<Spot> within = new ArrayList<>();
    for (Spot spot : stock.spots(near)) {
      Drive drive = drives.between(from, new Place(spot.id(), spot.position()));
      if (drive.minutes() <= minutes) {
        reached.put(spot.id(), drive);
        within.add(spot);
      }
    }
    return within;
  }

  @Override
  public Map<Long, List<Observation>> observations(Collection<Long> spotIds) {
    return stock.observations(spotIds);
  }

  @Override
  public Set<Long> spotsWith(Set<Trait> traits) {
    return stock.spotsWith(traits);
  }

  @Override
  public Set<Long> spotsWithSkyline() {
    return stock.spotsWithSkyline();
  }

  @Override
  public Map<Long, Skyline> skylines(Collection<Long> spotIds) {
    return stock.skylines(spotIds);
  }
}

package org.lightledger.studio;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import org.lightledger.ask.Stock;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.Drives;
import org.lightledger.session.drive.Place;
import org.lightledger.spot.Spot;

/** The spots of a stock that can be reached by car within so many minutes from a place. */
public final class DrivenStock extends StockPart {
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
    super(stock);
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
  boolean holds(Spot spot) {
    Drive drive = drives.between(from, new Place(spot.id(), spot.position()));
    if (drive.minutes() > minutes) {
      return false;
    }
    reached.put(spot.id(), drive);
    return true;
  }
}

package org.lightledger.geo.magnetic;

/**
 * The magnetic field at a place and time.
 *
 * @param northNt component towards true north, nanotesla
 * @param eastNt component towards true east, nanotesla
 * @param downNt component along the ellipsoid's inward normal, nanotesla
 * @param northRateNt change of the north component, nanotesla per year
 * @param eastRateNt change of the east component, nanotesla per year
 * @param downRateNt change of the downward component, nanotesla per year
 */
public record MagneticField(
    double northNt,
    double eastNt,
    double downNt,
    double northRateNt,
    double eastRateNt,
    double downRateNt) {

  /**
   * The horizontal intensity, which is what turns a needle.
   *
   * @return nanotesla, 0 or more
   */
  public double horizontalNt() {
    return Math.hypot(northNt, eastNt);
  }

  /**
   * The total intensity.
   *
   * @return nanotesla, 0 or more
   */
  public double totalNt() {
    return Math.hypot(horizontalNt(), downNt);
  }

  /**
   * The angle from true north to magnetic north; a true bearing is the magnetic one plus this.
   *
   * @return degrees in (-180, 180], positive clockwise
   */
  public double declinationDeg() {
    return Math.toDegrees(Math.atan2(eastNt, northNt));
  }

  /**
   * The dip of the field below the horizontal.
   *
   * @return degrees in [-90, 90], positive downwards
   */
  public double inclinationDeg() {
    return Math.toDegrees(Math.atan2(downNt, horizontalNt()));
  }

  /**
   * Change of the horizontal intensity.
   *
   * @return nanotesla per year
   */
  public double horizontalRateNt() {
    return (northNt * northRateNt + eastNt * eastRateNt) / horizontalNt();
  }

  /**
   * Change of the total intensity.
   *
   * @return nanotesla per year
   */
  public double totalRateNt() {
    return (northNt * northRateNt + eastNt * eastRateNt + downNt * downRateNt) / totalNt();
  }

  /**
   * Change of the declination.
   *
   * @return degrees per year
   */
  public double declinationRateDeg() {
    double horizontal = horizontalNt();
    return Math.toDegrees(
        (northNt * eastRateNt - eastNt * northRateNt) / (horizontal * horizontal));
  }

  /**
   * Change of the inclination.
   *
   * @return degrees per year
   */
  public double inclinationRateDeg() {
    double total = totalNt();
    return Math.toDegrees(
        (horizontalNt() * downRateNt - downNt * horizontalRateNt()) / (total * total));
  }
}

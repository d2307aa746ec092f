package org.lightledger.skyline.terrain;

/**
 * The steepest line of sight found so far along one ray. Not for use by several threads at once.
 */
final class Sight {
  /** The highest land of the earth, metres (survey of China and Nepal, 2020: 8848.86). */
  static final double HIGHEST_LAND_M = 8849.0;

  /** Flatter than any line of sight that a cell can give: own choice. */
  private static final double LOWEST_TANGENT = -1e9;

  private final double eyeM;
  private final double drop;
  private double tangent;
  private double distanceM;

  Sight(double eyeM, double dropPerM2) {
    this.eyeM = eyeM;
    this.drop = dropPerM2;
    restart();
  }

  void restart() {
    tangent = LOWEST_TANGENT;
    distanceM = 0.0;
  }

  /** The tangent of the altitude of the horizon. */
  double tangent() {
    return tangent;
  }

  /** How far away the horizon stands, metres. */
  double distanceM() {
    return distanceM;
  }

  /** The height that something must exceed somewhere on a stretch to rise over the horizon. */
  double neededM(double fromM, double toM) {
    double atFrom = eyeM + fromM * (tangent + fromM * drop);
    if (tangent >= 0.0) {
      return atFrom;
    }
    double lowestAtM = -tangent / (2.0 * drop);
    if (lowestAtM > fromM && lowestAtM < toM) {
      return eyeM - tangent * tangent / (4.0 * drop);
    }
    return Math.min(atFrom, eyeM + toM * (tangent + toM * drop));
  }

  /** Takes in a point of the land. */
  void consider(double heightM, double atM) {
    double seen = (heightM - eyeM) / atM - atM * drop;
    if (seen > tangent) {
      tangent = seen;
      distanceM = atM;
    }
  }

  /**
   * Takes in the land over a cell: the height is the first one plus slope * s + bend * s², with s
   * from 0 to 1. Seen from the eye such a parabola is steepest at an end or where its tangent
   * passes through the eye.
   */
  void considerParabola(double inM, double outM, double heightIn, double slope, double bend) {
    double widthM = outM - inM;
    if (inM > 0.0) {
      consider(heightIn, inM);
    }
    if (widthM > 0.0) {
      consider(heightIn + slope + bend, outM);
      double square = bend / (widthM * widthM);
      double linear = slope / widthM - 2.0 * square * inM;
      double atEye = heightIn - linear * inM - square * inM * inM - eyeM;
      double curve = square - drop;
      if (atEye < 0.0 && curve < 0.0) {
        double steepestM = Math.sqrt(atEye / curve);
        if (steepestM > inM && steepestM < outM) {
          double s = (steepestM - inM) / widthM;
          consider(heightIn + s * (slope + s * bend), steepestM);
        }
      }
    }
  }
}

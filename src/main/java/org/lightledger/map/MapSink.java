package org.lightledger.map;

/** Takes what an extract holds, one after the other, so that nobody has to hold all of it. */
public interface MapSink {
  /**
   * Takes a building or trees.
   *
   * @param obstruction what stands there
   */
  void obstruction(MapObstruction obstruction);

  /**
   * Takes what is drawn.
   *
   * @param feature what it is and where
   */
  void feature(MapFeature feature);
}

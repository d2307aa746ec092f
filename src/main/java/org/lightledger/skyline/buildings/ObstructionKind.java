package org.lightledger.skyline.buildings;

import org.lightledger.skyline.SkylineSource;

/**
 * What stands in the way, with the height assumed where none is given. All assumed heights are own
 * choice: they only have to be plausible, and each use of one is marked.
 */
public enum ObstructionKind {
  /** A building: assumed two storeys of {@value Heights#STOREY_M} metres. */
  BUILDING(2 * Heights.STOREY_M, SkylineSource.BUILDING),
  /** A single tree: lower than a wood's, for many are young ones along streets. */
  TREE(8.0, SkylineSource.TREES),
  /** A row of trees. */
  TREE_ROW(10.0, SkylineSource.TREES),
  /** A wood. */
  WOOD(15.0, SkylineSource.TREES);

  private final double assumedHeightM;
  private final SkylineSource source;

  ObstructionKind(double assumedHeightM, SkylineSource source) {
    this.assumedHeightM = assumedHeightM;
    this.source = source;
  }

  /**
   * The height where none is given.
   *
   * @return metres
   */
  public double assumedHeightM() {
    return assumedHeightM;
  }

  /**
   * What a skyline says of it.
   *
   * @return building or trees
   */
  public SkylineSource source() {
    return source;
  }
}

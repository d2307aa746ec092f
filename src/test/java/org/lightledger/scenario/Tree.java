package org.lightledger.scenario;

/**
 * A tree.
 *
 * @param kind its kind
 * @param at where it stands
 * @param heightM metres above the ground
 */
public record Tree(Kind kind, Point at, double heightM) {
  /** Kinds of trees, each with the height of its pattern, metres. */
  public enum Kind {
    POPLAR(16),
    WILLOW(9),
    ASH(11),
    HOLM_OAK(7),
    FRUIT(4.2),
    CYPRESS(8),
    SHRUB(2.4);

    private final double patternM;

    Kind(double patternM) {
      this.patternM = patternM;
    }

    /** Height of the pattern that trees of this kind are scaled from, metres. */
    public double patternM() {
      return patternM;
    }
  }
}

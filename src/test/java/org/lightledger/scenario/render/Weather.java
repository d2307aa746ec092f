package org.lightledger.scenario.render;

/**
 * The state of the air above a shot.
 *
 * @param kind the kind of sky
 * @param cirrus share of the sky veiled by thin high cloud, in [0, 1]
 * @param visibilityKm how far one sees (Koschmieder), kilometres, above 0
 * @param mist extinction of ground mist at the lowest ground, per metre, 0 or more
 * @param seed makes one sky differ from the next
 */
public record Weather(Kind kind, double cirrus, double visibilityKm, double mist, int seed) {
  /** Clear sun, sun through thin haze, or a grey sky without a sun. */
  public enum Kind {
    CLEAR,
    HAZY,
    OVERCAST
  }
}

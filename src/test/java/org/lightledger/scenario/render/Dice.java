package org.lightledger.scenario.render;

/**
 * Repeatable random numbers (SplitMix64: Steele, Lea and Flood 2014). One per thread or object;
 * equal seeds give equal numbers on every machine.
 */
public final class Dice {
  private long state;

  public Dice(long seed) {
    state = mix(seed + 0x9E3779B97F4A7C15L);
  }

  void reset(long seed) {
    state = mix(seed + 0x9E3779B97F4A7C15L);
  }

  private long next() {
    state += 0x9E3779B97F4A7C15L;
    return mix(state);
  }

  private static long mix(long value) {
    long z = (value ^ (value >>> 30)) * 0xBF58476D1CE4E5B9L;
    z = (z ^ (z >>> 27)) * 0x94D049BB133111EBL;
    return z ^ (z >>> 31);
  }

  /** A number in [0, 1). */
  public double unit() {
    return (next() >>> 11) * 0x1.0p-53;
  }

  /** A number in [low, high). */
  public double between(double low, double high) {
    return low + (high - low) * unit();
  }

  /** A whole number in [0, bound). */
  int below(int bound) {
    return (int) (unit() * bound);
  }
}

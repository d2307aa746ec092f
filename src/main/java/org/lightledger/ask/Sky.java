package org.lightledger.ask;

/** What the sky is like. */
public enum Sky {
  /** The sun shines. */
  CLEAR,
  /** Clouds hide the sun: the light is even, as in open shade. */
  OVERCAST
}

package org.lightledger.session.planner;

/** A rule that every plan keeps. */
public enum Rule {
  /** A session is no longer than agreed. */
  LENGTH,
  /** It does not end after the latest end. */
  LATEST_END,
  /** It makes at least and at most so many stops. */
  STOPS,
  /** As many outfits are worn as wished, and changed where that is possible. */
  OUTFITS,
  /** Shooting and changing lie within opening hours. */
  OPENING,
  /** A locked stop keeps its place in the order and its time. */
  ORDER,
  /** A locked spot is a stop. */
  LOCK,
  /** An excluded spot is none. */
  EXCLUDED,
  /** One gets from stop to stop. */
  DRIVE
}

package org.lightledger.share;

import java.util.HashSet;
import java.util.Set;

/**
 * The boxes of a page that have a tick, and those that had one when it was shown. A box that was
 * left as it was shown undoes nothing that was done to it elsewhere meanwhile.
 *
 * @param shown the boxes that the page showed with a tick
 * @param sent the boxes that have one now
 * @param <T> what a box stands for
 */
public record Ticks<T>(Set<T> shown, Set<T> sent) {
  /** Keeps own copies. */
  public Ticks {
    shown = Set.copyOf(shown);
    sent = Set.copyOf(sent);
  }

  /**
   * Whether a box was changed.
   *
   * @return false when all were left as they were
   */
  public boolean isChanged() {
    return !shown.equals(sent);
  }

  /**
   * The boxes that are to have a tick.
   *
   * @param kept those that have one now
   * @return those that have one once what was changed on the page is changed in them
   */
  public Set<T> onto(Set<T> kept) {
    Set<T> cleared = new HashSet<>(shown);
    cleared.removeAll(sent);
    Set<T> set = new HashSet<>(sent);
    set.removeAll(shown);
    Set<T> after = new HashSet<>(kept);
    after.removeAll(cleared);
    after.addAll(set);
    return after;
  }
}

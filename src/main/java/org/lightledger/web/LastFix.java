package org.lightledger.web;

import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.store.StoredCorrection;

/**
 * The newest correction, which can be undone.
 *
 * @param id its number
 * @param words what it was
 * @param when when it was made, in words
 */
public record LastFix(long id, String words, String when) {

  static @Nullable LastFix of(List<StoredCorrection> newest, ZoneId zone) {
    if (newest.isEmpty()) {
      return null;
    }
    StoredCorrection last = newest.get(0);
    return new LastFix(
        last.id(),
        last.words() + ": " + Words.count(last.shots(), "shot", "shots"),
        Words.moment(last.madeAt().atZone(zone).toOffsetDateTime()));
  }
}

package org.lightledger.web;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.store.LedgerSession;

/**
 * A shortlist to put spots on.
 *
 * @param id its number
 * @param title what it is called
 * @param picked whether it was chosen before
 * @param shared whether a client can see it now
 */
public record ShortlistChoice(String id, String title, boolean picked, boolean shared) {

  /** All shortlists, those first that no client sees. */
  static List<ShortlistChoice> all(LedgerSession session, @Nullable String picked, Instant now) {
    return session.shortlists().all().stream()
        .map(list -> of(session, list, picked, now))
        .sorted(Comparator.comparing(ShortlistChoice::shared))
        .toList();
  }

  private static ShortlistChoice of(
      LedgerSession session, Shortlist list, @Nullable String picked, Instant now) {
    String id = String.valueOf(list.id());
    boolean shared =
        session.shares().of(ShareSubject.shortlist(list.id())).stream()
            .anyMatch(share -> share.stateAt(now) == Share.State.OPEN);
    return new ShortlistChoice(id, list.title(), id.equals(picked), shared);
  }

  /**
   * Where to begin: a spot lands in a client's view only when the owner picks that.
   *
   * @param lists the shortlists there are
   * @return the number of the one picked before, else of one that no client sees; "" for a new one
   */
  public static String usual(List<ShortlistChoice> lists) {
    return lists.stream()
        .filter(list -> list.picked() || !list.shared())
        .max(Comparator.comparing(ShortlistChoice::picked))
        .map(ShortlistChoice::id)
        .orElse("");
  }

  /** The title, and whether a client sees it. */
  public String label() {
    return shared ? title + " (a client sees it)" : title;
  }
}

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
 * @param client what a client has of it, "" for nothing
 */
public record ShortlistChoice(String id, String title, boolean picked, String client) {

  /** All shortlists, those first of which no client has anything. */
  static List<ShortlistChoice> all(LedgerSession session, @Nullable String picked, Instant now) {
    return session.shortlists().all().stream()
        .map(list -> of(session, list, picked, now))
        .sorted(Comparator.comparing(ShortlistChoice::isShared))
        .toList();
  }

  private static ShortlistChoice of(
      LedgerSession session, Shortlist list, @Nullable String picked, Instant now) {
    String id = String.valueOf(list.id());
    List<Share> shares = session.shares().of(ShareSubject.shortlist(list.id()));
    return new ShortlistChoice(id, list.title(), id.equals(picked), client(shares, now));
  }

  /** A link shows the list as it becomes, a file stays as it was. */
  private static String client(List<Share> shares, Instant now) {
    if (ShortlistViews.open(shares, false, now) > 0) {
      return "a client sees it";
    }
    return ShortlistViews.open(shares, true, now) > 0 ? "a client has a copy" : "";
  }

  private boolean isShared() {
    return !client.isEmpty();
  }

  /**
   * Where to begin: a spot lands in a client's view only when the owner picks that.
   *
   * @param lists the shortlists there are
   * @return the number of the one picked before, else of one of which no client has anything; ""
   *     for a new one
   */
  public static String usual(List<ShortlistChoice> lists) {
    return lists.stream()
        .filter(list -> list.picked() || !list.isShared())
        .max(Comparator.comparing(ShortlistChoice::picked))
        .map(ShortlistChoice::id)
        .orElse("");
  }

  /** The title, and what a client has of it. */
  public String label() {
    return isShared() ? title + " (" + client + ")" : title;
  }
}

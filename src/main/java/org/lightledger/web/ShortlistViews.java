package org.lightledger.web;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.ShortlistEntry;
import org.lightledger.store.StoredShot;
import org.lightledger.web.chart.LightGlyph;

/** Turns shortlists and shares into what their pages show. */
final class ShortlistViews {
  private ShortlistViews() {}

  static ShortlistsPage.Row row(LedgerSession session, Shortlist list, Instant now) {
    List<Share> shares = session.shares().of(ShareSubject.shortlist(list.id()));
    long news = shares.stream().filter(Share::hasNews).count();
    Long cover =
        list.entries().stream()
            .map(Shortlist.Entry::coverShotId)
            .filter(shotId -> shotId != null)
            .findFirst()
            .orElse(null);
    return new ShortlistsPage.Row(
        "/shortlists/" + list.id(),
        list.title(),
        Words.count(list.entries().size(), "spot", "spots"),
        shared(shares, now)
            + (news == 0 ? "" : ", " + Words.count((int) news, "new reply", "new replies")),
        cover == null ? null : picture(cover));
  }

  /** How many links show a list as it is, and how many files as it was. */
  private static String shared(List<Share> shares, Instant now) {
    List<String> ways = new ArrayList<>();
    int links = open(shares, false, now);
    int files = open(shares, true, now);
    if (links > 0) {
      ways.add(Words.count(links, "link", "links"));
    }
    if (files > 0) {
      ways.add(Words.count(files, "file", "files"));
    }
    return ways.isEmpty() ? "not shared" : "shared by " + String.join(" and ", ways);
  }

  /** How many shares of a way work. */
  static int open(List<Share> shares, boolean asFile, Instant now) {
    return (int)
        shares.stream()
            .filter(share -> share.terms().asFile() == asFile)
            .filter(share -> share.stateAt(now) == Share.State.OPEN)
            .count();
  }

  static List<ShortlistPage.Entry> entries(LedgerSession session, long listId) {
    List<ShortlistEntry> stored = session.shortlists().entries(listId);
    List<ShortlistPage.Entry> entries = new ArrayList<>();
    for (ShortlistEntry entry : stored) {
      entries.add(entry(session, entry.id(), entry.entry(), entries.size() + 1, stored.size()));
    }
    return entries;
  }

  /** The middle of each window is rehearsed. */
  static @Nullable ScoutingLink scouting(LedgerSession session, Shortlist list, Instant now) {
    List<ScoutingLink.Moment> moments = new ArrayList<>();
    for (Shortlist.Entry entry : list.entries()) {
      Shortlist.Moment moment = entry.moment();
      if (moment != null) {
        Instant from = moment.from().toInstant();
        Instant middle = from.plus(Duration.between(from, moment.to().toInstant()).dividedBy(2));
        session
            .spots()
            .find(entry.spotId())
            .ifPresent(spot -> moments.add(new ScoutingLink.Moment(spot, middle)));
      }
    }
    return ScoutingLink.of(moments, now, 2);
  }

  private static ShortlistPage.Entry entry(
      LedgerSession session, long id, Shortlist.Entry entry, int number, int count) {
    Shortlist.Moment moment = entry.moment();
    Long cover = entry.coverShotId();
    return new ShortlistPage.Entry(
        id,
        String.valueOf(number),
        "/spots/" + entry.spotId(),
        session.spots().find(entry.spotId()).map(Spot::name).orElse("a spot that is gone"),
        moment == null
            ? ""
            : Words.day(moment.from().toLocalDate())
                + ", "
                + Words.window(moment.from(), moment.to()),
        moment == null ? null : LightGlyph.of(moment.light()),
        moment == null ? "" : Words.capital(moment.light().label()),
        moment == null ? "" : "face " + Words.bearing(moment.facing()),
        entry.words(),
        cover == null ? null : picture(cover),
        covers(session.shots().ofSpot(entry.spotId()), cover),
        number == 1,
        number == count);
  }

  private static List<ShortlistPage.Cover> covers(List<StoredShot> shots, @Nullable Long picked) {
    return shots.stream()
        .map(
            shot ->
                new ShortlistPage.Cover(
                    String.valueOf(shot.id()),
                    SpotViews.when(shot.shot().time()),
                    "/shots/" + shot.id() + "/preview?w=240",
                    picked != null && picked == shot.id()))
        .toList();
  }

  private static String picture(long shotId) {
    return "/shots/" + shotId + "/preview?w=480";
  }
}

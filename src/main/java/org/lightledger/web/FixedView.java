package org.lightledger.web;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Corrected;
import org.lightledger.correction.Outcome;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;

/**
 * What a correction did.
 *
 * @param headline how many shots came out how
 * @param good whether it changed anything
 * @param words what the correction was
 * @param undo the number to undo it by, or null when it changed nothing
 * @param rows the shots that the owner should look at
 * @param hidden how many more there are, in words, "" for none
 * @param spots where the shots that are fixed are now
 * @param moreSpots how many more such spots there are, in words, "" for none
 */
public record FixedView(
    String headline,
    boolean good,
    String words,
    @Nullable Long undo,
    List<Row> rows,
    String hidden,
    List<AtSpot> spots,
    String moreSpots) {
  private static final int MOST_SHOWN = 60;
  private static final int MOST_SPOTS = 8;

  /**
   * A shot.
   *
   * @param id the ledger's number
   * @param name the name of its file
   * @param state what became of it, in words
   * @param why the reasons
   */
  public record Row(long id, String name, String state, List<String> why) {}

  /**
   * A spot that holds shots that are fixed.
   *
   * @param href its page
   * @param name its name, and how many of the shots it holds when it is more than one
   */
  public record AtSpot(String href, String name) {}

  static FixedView of(Corrected corrected, LedgerSession session) {
    List<Row> rows = new ArrayList<>();
    int more = 0;
    for (Outcome outcome : corrected.outcomes()) {
      if (outcome.kind() == Outcome.Kind.FIXED && outcome.why().isEmpty()) {
        continue;
      }
      if (rows.size() == MOST_SHOWN) {
        more++;
        continue;
      }
      rows.add(
          new Row(
              outcome.shotId(),
              name(session, outcome.shotId()),
              switch (outcome.kind()) {
                case FIXED -> "fixed";
                case STILL_WAITING -> "changed, still waits";
                case UNCHANGED -> "not changed";
              },
              outcome.why()));
    }
    List<AtSpot> spots = spots(corrected, session);
    List<String> counts = new ArrayList<>();
    count(counts, corrected.count(Outcome.Kind.FIXED), "fixed");
    count(counts, corrected.count(Outcome.Kind.STILL_WAITING), "changed but still waiting");
    count(counts, corrected.count(Outcome.Kind.UNCHANGED), "not changed");
    return new FixedView(
        String.join(", ", counts),
        corrected.id() != null,
        corrected.words(),
        corrected.id(),
        rows,
        more == 0 ? "" : "and " + Words.count(more, "more shot", "more shots"),
        spots.subList(0, Math.min(spots.size(), MOST_SPOTS)),
        spots.size() <= MOST_SPOTS
            ? ""
            : "and " + Words.count(spots.size() - MOST_SPOTS, "more spot", "more spots"));
  }

  private static String name(LedgerSession session, long shotId) {
    return session.shots().find(shotId).map(AttentionViews::name).orElse("Shot " + shotId);
  }

  private static List<AtSpot> spots(Corrected corrected, LedgerSession session) {
    Map<Long, Integer> shotsAt = new LinkedHashMap<>();
    for (Outcome outcome : corrected.outcomes()) {
      if (outcome.kind() == Outcome.Kind.FIXED) {
        session
            .shots()
            .find(outcome.shotId())
            .map(StoredShot::spotId)
            .ifPresent(spotId -> shotsAt.merge(spotId, 1, Integer::sum));
      }
    }
    List<AtSpot> spots = new ArrayList<>();
    shotsAt.forEach(
        (spotId, shots) ->
            session
                .spots()
                .find(spotId)
                .map(spot -> spot.name() + (shots == 1 ? "" : " (" + shots + " shots)"))
                .ifPresent(name -> spots.add(new AtSpot("/spots/" + spotId, name))));
    return spots;
  }

  private static void count(List<String> counts, int count, String how) {
    if (count > 0) {
      counts.add(
          (counts.isEmpty() ? Words.count(count, "shot", "shots") : String.valueOf(count))
              + " "
              + how);
    }
  }
}

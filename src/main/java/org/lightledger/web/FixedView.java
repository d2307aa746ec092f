package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Corrected;
import org.lightledger.correction.Outcome;

/**
 * What a correction did.
 *
 * @param headline how many shots came out how
 * @param good whether it changed anything
 * @param words what the correction was
 * @param undo the number to undo it by, or null when it changed nothing
 * @param rows the shots that the owner should look at
 * @param hidden how many more there are, in words, "" for none
 */
public record FixedView(
    String headline,
    boolean good,
    String words,
    @Nullable Long undo,
    List<Row> rows,
    String hidden) {
  private static final int MOST_SHOWN = 60;

  /**
   * A shot.
   *
   * @param id the ledger's number
   * @param name the name of its file
   * @param state what became of it, in words
   * @param why the reasons
   */
  public record Row(long id, String name, String state, List<String> why) {}

  static FixedView of(Corrected corrected, LongFunction<String> nameOf) {
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
              nameOf.apply(outcome.shotId()),
              switch (outcome.kind()) {
                case FIXED -> "fixed";
                case STILL_WAITING -> "changed, still waits";
                case UNCHANGED -> "not changed";
              },
              outcome.why()));
    }
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
        more == 0 ? "" : "and " + Words.count(more, "more shot", "more shots"));
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

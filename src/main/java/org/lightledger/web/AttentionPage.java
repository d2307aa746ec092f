package org.lightledger.web;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;
import org.lightledger.store.StoredShot;

/**
 * The shots that wait for the owner.
 *
 * @param shots the shots, in the order in which they came
 */
public record AttentionPage(List<Row> shots) {

  /**
   * A shot.
   *
   * @param id the ledger's number
   * @param name the name of its file
   * @param when when it was taken, as far as known
   * @param reasons what is missing or doubtful, and what to do
   * @param spot the spot's page, or null
   */
  public record Row(
      long id, String name, String when, List<String> reasons, @Nullable String spot) {}

  static AttentionPage of(List<StoredShot> shots) {
    return new AttentionPage(shots.stream().map(AttentionPage::row).toList());
  }

  private static Row row(StoredShot stored) {
    Long spotId = stored.spotId();
    return new Row(
        stored.id(),
        stored.files().isEmpty() ? "file gone" : name(stored.files().get(0)),
        SpotViews.when(stored.shot().time()),
        stored.shot().problems().stream()
            .filter(problem -> problem.kind().needsAttention())
            .map(Problem::message)
            .toList(),
        spotId == null ? null : "/spots/" + spotId);
  }

  private static String name(Path path) {
    Path last = path.getFileName();
    return last == null ? path.toString() : last.toString();
  }
}

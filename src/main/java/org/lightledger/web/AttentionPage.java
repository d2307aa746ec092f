package org.lightledger.web;

import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The shots that wait for the owner, and what settles each.
 *
 * @param waiting how many wait
 * @param groups the shots by what is missing; only groups that hold any
 * @param fixed what the correction just made did, or null
 * @param last the newest correction, or null when there is none
 * @param undone whether a correction has just been undone
 * @param problems what was wrong with the fields sent
 * @param spots the spots, for the map
 */
public record AttentionPage(
    int waiting,
    List<Group> groups,
    @Nullable FixedView fixed,
    @Nullable LastFix last,
    boolean undone,
    List<FieldProblem> problems,
    List<Place> spots) {

  /**
   * Whether a map is needed.
   *
   * @return true when a place is missing
   */
  public boolean map() {
    return groups.stream().anyMatch(group -> group.kind().place());
  }

  /**
   * The names of the time zones, to choose from.
   *
   * @return by name
   */
  public static List<String> zones() {
    return ZoneId.getAvailableZoneIds().stream()
        .filter(id -> id.contains("/") && !id.startsWith("Etc/") && !id.startsWith("SystemV/"))
        .sorted()
        .toList();
  }

  /** What is missing. */
  public enum Kind {
    /** Neither a time nor a place. */
    BOTH(
        "both",
        "Time and place are missing",
        "Place these shots, by a track log or on the map: where the file holds a reading of the"
            + " camera's clock, the time follows from the zone of the place."),
    /** No time. */
    TIME(
        "time",
        "The time is missing",
        "The file holds a reading of the camera's clock that nothing ties to a moment, or none."),
    /** More than one time fits. */
    CHOICE(
        "choice",
        "The time is ambiguous",
        "More than one moment fits. Choose which; the ledger does not."),
    /** No place. */
    PLACE(
        "place",
        "The place is missing",
        "The file holds no position, or one that can not be true."),
    /** No direction. */
    WAY(
        "way",
        "The direction is missing",
        "These shots serve their spots all the same. With a direction they also teach a facing. Open"
            + " a shot to tap the sun or a shadow in its picture.");

    private final String code;
    private final String title;
    private final String lead;

    Kind(String code, String title, String lead) {
      this.code = code;
      this.title = title;
      this.lead = lead;
    }

    /**
     * Its name in forms.
     *
     * @return such as "time"
     */
    public String code() {
      return code;
    }

    /**
     * Its heading.
     *
     * @return a sentence
     */
    public String title() {
      return title;
    }

    /**
     * What it means.
     *
     * @return a sentence or two
     */
    public String lead() {
      return lead;
    }

    /**
     * Whether its fixes tell the time.
     *
     * @return true when a time is missing or ambiguous
     */
    public boolean time() {
      return this == BOTH || this == TIME || this == CHOICE;
    }

    /**
     * Whether its fixes tell the place.
     *
     * @return true when a place is missing
     */
    public boolean place() {
      return this == BOTH || this == PLACE;
    }

    /**
     * Whether its fixes tell the direction.
     *
     * @return true when a direction is missing
     */
    public boolean way() {
      return this == WAY;
    }
  }

  /**
   * Shots that lack the same.
   *
   * @param kind what is missing
   * @param batches the shots shown, by folder and reasons
   * @param count how many there are
   * @param hidden how many are not shown, in words, "" for none
   * @param all whether all were ticked
   * @param form the fields of the fixes
   */
  public record Group(
      Kind kind, List<Batch> batches, int count, String hidden, boolean all, FixForm form) {}

  /**
   * Shots of one folder that lack the same for the same reasons.
   *
   * @param title how many of which folder, to be ticked at once
   * @param reasons what is missing or doubtful, and what to do
   * @param rows the shots
   */
  public record Batch(String title, List<String> reasons, List<Row> rows) {
    /** More are folded away, so that the fixes are within reach; four rows of three, own choice. */
    private static final int UNFOLDED = 12;

    /**
     * The shots that are seen at once.
     *
     * @return the first of them
     */
    public List<Row> first() {
      return rows.subList(0, Math.min(UNFOLDED, rows.size()));
    }

    /**
     * The shots that are folded away.
     *
     * @return the others
     */
    public List<Row> rest() {
      return rows.subList(Math.min(UNFOLDED, rows.size()), rows.size());
    }

    /**
     * Whether something folded away was ticked.
     *
     * @return true when it must be unfolded
     */
    public boolean restTicked() {
      return rest().stream().anyMatch(Row::ticked);
    }
  }

  /**
   * A shot.
   *
   * @param id the ledger's number
   * @param name the name of its file
   * @param when when it was taken, as far as known
   * @param ticked whether it was ticked
   */
  public record Row(long id, String name, String when, boolean ticked) {}

  /**
   * A spot on the map.
   *
   * @param name its name
   * @param lat latitude, degrees
   * @param lon longitude
   */
  public record Place(String name, String lat, String lon) {}
}

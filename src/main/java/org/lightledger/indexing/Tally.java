package org.lightledger.indexing;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/**
 * Counts what became of files and keeps some of the lines, so that an import of any size fits into
 * memory: the first {@link #MOST_LINES}, and beyond them as many again of those that need the
 * owner's eye. Not safe for several threads.
 */
public final class Tally {
  /** A line with its shot takes about a kilobyte; own choice. */
  public static final int MOST_LINES = 1000;

  private final Map<FileReport.Status, Integer> counts = new EnumMap<>(FileReport.Status.class);
  private final List<FileReport> lines = new ArrayList<>();

  /**
   * Counts a file.
   *
   * @param file what became of it
   */
  public void add(FileReport file) {
    counts.merge(file.status(), 1, Integer::sum);
    if (lines.size() < MOST_LINES || (file.needsEye() && lines.size() < 2 * MOST_LINES)) {
      lines.add(file);
    }
  }

  /**
   * The lines that were kept.
   *
   * @return in the order in which they came
   */
  public List<FileReport> lines() {
    return List.copyOf(lines);
  }

  /**
   * How many files came out in each way.
   *
   * @return only the ways that occurred
   */
  public Map<FileReport.Status, Integer> counts() {
    return Map.copyOf(counts);
  }

  /**
   * How many files came out in a way.
   *
   * @param status the way
   * @return the count
   */
  public int count(FileReport.Status status) {
    return counts.getOrDefault(status, 0);
  }

  /**
   * How many files were counted.
   *
   * @return the count
   */
  public int all() {
    return counts.values().stream().mapToInt(Integer::intValue).sum();
  }
}

package org.lightledger.exchange;

import java.util.ArrayList;
import java.util.List;

/**
 * What a file says of spots.
 *
 * @param found the spots, in the order of the file
 * @param problems one line for each feature that is no spot
 * @param remarks what else the owner should know of the file
 */
public record SpotFile(List<Found> found, List<String> problems, List<String> remarks) {

  /**
   * A spot, and what of it was left out.
   *
   * @param where which feature of the file it is, in words
   * @param spot the spot
   * @param leftOut what was said wrongly and is not taken over
   */
  public record Found(String where, ExchangedSpot spot, List<String> leftOut) {
    /** Keeps an own copy of the list. */
    public Found {
      leftOut = List.copyOf(leftOut);
    }
  }

  /** Keeps own copies of the lists. */
  public SpotFile {
    found = List.copyOf(found);
    problems = List.copyOf(problems);
    remarks = List.copyOf(remarks);
  }

  /**
   * How many features were met.
   *
   * @return those that are spots and those that are not
   */
  public int read() {
    return found.size() + problems.size();
  }

  /** Gathers what a reader finds. Not thread-safe. */
  public static final class Gathering {
    private final List<Found> found = new ArrayList<>();
    private final List<String> problems = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();

    /**
     * Takes a feature, or notes why it is no spot.
     *
     * @param where which feature of the file it is, in words
     * @param draft what the file says of it
     * @throws UnreadableSpotsException when the file holds more features than are read
     */
    public void take(String where, SpotDraft draft) throws UnreadableSpotsException {
      bound();
      try {
        found.add(new Found(where, draft.spot(), draft.leftOut()));
      } catch (IllegalArgumentException e) {
        problems.add(where + ": " + e.getMessage());
      }
    }

    /**
     * Notes a feature that is no spot.
     *
     * @param where which feature of the file it is, in words
     * @param why what was found and expected
     * @throws UnreadableSpotsException when the file holds more features than are read
     */
    public void refuse(String where, String why) throws UnreadableSpotsException {
      bound();
      problems.add(where + ": " + why);
    }

    /**
     * Notes something of the whole file.
     *
     * @param text for the owner
     */
    public void remark(String text) {
      remarks.add(text);
    }

    private void bound() throws UnreadableSpotsException {
      if (found.size() + problems.size() >= SpotReader.MOST_FEATURES) {
        throw new UnreadableSpotsException(
            "The file holds more than "
                + SpotReader.MOST_FEATURES
                + " features; nothing of it was taken over. Split it into smaller files.");
      }
    }

    /**
     * Whether nothing was met so far.
     *
     * @return true when there was no feature
     */
    public boolean isEmpty() {
      return found.isEmpty() && problems.isEmpty();
    }

    /**
     * What was gathered.
     *
     * @return the file's spots and problems
     */
    public SpotFile file() {
      return new SpotFile(found, problems, remarks);
    }
  }
}

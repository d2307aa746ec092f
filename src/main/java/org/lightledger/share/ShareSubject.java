package org.lightledger.share;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a share shows.
 *
 * @param kind a shortlist or a session
 * @param id the ledger's number of it
 */
public record ShareSubject(Kind kind, long id) {
  private static final Pattern FORM = Pattern.compile("(session:)?([0-9]{1,18})");

  /** What can be shared. */
  public enum Kind {
    /** Spots proposed to a client. */
    SHORTLIST("shortlist"),
    /** A session with its plan and the owner's questions. */
    SESSION("session");

    private final String label;

    Kind(String label) {
      this.label = label;
    }

    /**
     * The word on screens.
     *
     * @return for example "session"
     */
    public String label() {
      return label;
    }
  }

  /**
   * A shortlist.
   *
   * @param id the ledger's number of it
   * @return the subject
   */
  public static ShareSubject shortlist(long id) {
    return new ShareSubject(Kind.SHORTLIST, id);
  }

  /**
   * A session.
   *
   * @param id the ledger's number of it
   * @return the subject
   */
  public static ShareSubject session(long id) {
    return new ShareSubject(Kind.SESSION, id);
  }

  /**
   * Whether it is a session.
   *
   * @return false for a shortlist
   */
  public boolean isSession() {
    return kind == Kind.SESSION;
  }

  /**
   * Reads what the command line says.
   *
   * @param text "3" for a shortlist, "session:3" for a session
   * @return the subject
   * @throws IllegalArgumentException naming what was found and expected
   */
  public static ShareSubject parse(String text) {
    Matcher matcher = FORM.matcher(text.strip());
    if (!matcher.matches()) {
      throw new IllegalArgumentException(
          "expected a shortlist's number such as 3, or session:3; found \"" + text + "\"");
    }
    long id = Long.parseLong(matcher.group(2));
    return matcher.group(1) == null ? shortlist(id) : session(id);
  }

  @Override
  public String toString() {
    return kind.label() + " " + id;
  }
}

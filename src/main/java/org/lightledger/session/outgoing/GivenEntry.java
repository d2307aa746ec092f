package org.lightledger.session.outgoing;

/**
 * An entry that the studio's calendar was given.
 *
 * @param uid the entry's name
 * @param title what it was
 * @param time when it was to be
 * @param revision the session's revision it was given at
 */
public record GivenEntry(String uid, String title, Agenda.Span time, int revision) {

  /**
   * The same entry at another revision.
   *
   * @param other the revision
   * @return the entry
   */
  public GivenEntry at(int other) {
    return new GivenEntry(uid, title, time, other);
  }

  /** The entry as it is taken back. */
  Agenda.Entry takenBack() {
    return new Agenda.Entry(uid, title, "", null, time, null, false);
  }
}

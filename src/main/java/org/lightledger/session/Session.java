package org.lightledger.session;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.stream.Collectors;

/**
 * A day with a client in it.
 *
 * @param id the ledger's number of the session, 0 before it has one
 * @param uid a name for calendars that never changes and tells nothing: letters, digits, hyphens
 * @param revision how often what the calendars show was changed, 0 or more
 * @param clientId the client
 * @param date the day on which it starts, on the place's calendar; it may end after midnight
 * @param zone the zone of the place, and UTC while no place is known
 * @param anchor what fixes it in the day
 * @param terms what was booked; a later change of the package does not touch it
 * @param state how far it is
 * @param brief what the session is to be
 */
public record Session(
    long id,
    String uid,
    int revision,
    long clientId,
    LocalDate date,
    ZoneId zone,
    Anchor anchor,
    Terms terms,
    State state,
    Brief brief) {

  /**
   * Whether the zone of its place is known.
   *
   * @return false while no place is known
   */
  public boolean isZoneKnown() {
    return !zone.equals(ZoneOffset.UTC);
  }

  /**
   * The same session in another zone.
   *
   * @param other the zone
   * @return the session; the clock times of its anchor stay as they were said
   */
  public Session in(ZoneId other) {
    return new Session(id, uid, revision, clientId, date, other, anchor, terms, state, brief);
  }

  /** How far a session is. */
  public enum State {
    /** Agreed with the client; no plan yet. */
    BOOKED("booked"),
    /** It has a plan that may still change. */
    PLANNED("planned"),
    /** The plan is agreed with the client. */
    AGREED("agreed"),
    /** It has been. */
    DONE("done"),
    /** It will not be. */
    CANCELLED("cancelled");

    private final String label;

    State(String label) {
      this.label = label;
    }

    /**
     * The word on screens.
     *
     * @return for example "agreed"
     */
    public String label() {
      return label;
    }

    /**
     * The words on screens of all states.
     *
     * @return "booked, planned, …"
     */
    public static String list() {
      return Arrays.stream(values()).map(State::label).collect(Collectors.joining(", "));
    }

    /**
     * Whether it is still to come.
     *
     * @return true until it is done or cancelled
     */
    public boolean isOpen() {
      return this != DONE && this != CANCELLED;
    }
  }

  /**
   * What a session is to be, in words; "" for nothing noted.
   *
   * @param wishes what the client wishes
   * @param pictures poses and pictures wanted
   * @param talkingPoints what to talk about
   * @param goal the small goal that the studio sets itself
   * @param outcome how it went with the goal
   * @param notes the owner's own words; they never leave the ledger
   */
  public record Brief(
      String wishes,
      String pictures,
      String talkingPoints,
      String goal,
      String outcome,
      String notes) {
    /** Nothing noted yet. */
    public static final Brief EMPTY = new Brief("", "", "", "", "", "");
  }
}

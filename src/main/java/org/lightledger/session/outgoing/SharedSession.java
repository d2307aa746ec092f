package org.lightledger.session.outgoing;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * All that a message can tell a client of a session. What is not in here does not leave the ledger.
 *
 * @param to who reads it
 * @param client the client's first name
 * @param toGuardian whether a guardian reads it, and not the client
 * @param packageName what was booked
 * @param outfits how many outfits the plan wears, and while there is none the most that are booked
 * @param date the day on which all meet, and the session's own while there is no plan
 * @param zone the zone of the place, or null while none is known
 * @param meeting where and when all meet, or null while there is no plan
 * @param stops in order, none while there is no plan
 * @param end when it ends, or null while there is no plan
 * @param questions what the owner asks
 */
public record SharedSession(
    String to,
    String client,
    boolean toGuardian,
    String packageName,
    int outfits,
    LocalDate date,
    @Nullable ZoneId zone,
    @Nullable Meeting meeting,
    List<Stop> stops,
    @Nullable OffsetDateTime end,
    List<String> questions) {

  /** Keeps own copies. */
  public SharedSession {
    stops = List.copyOf(stops);
    questions = List.copyOf(questions);
  }

  /**
   * Where and when all meet: the one place whose position a client is told.
   *
   * @param at when
   * @param words how to find it
   * @param place where it is
   */
  public record Meeting(OffsetDateTime at, String words, GeoPoint place) {}

  /**
   * A stop.
   *
   * @param name the spot's name
   * @param arrive when all arrive
   * @param leave when all leave
   * @param outfits which outfits are worn, in order, one or more
   * @param driveMinutes how long the drive to it takes, or null for none
   * @param cautions what to mind there, "" for nothing noted
   */
  public record Stop(
      String name,
      OffsetDateTime arrive,
      OffsetDateTime leave,
      List<Integer> outfits,
      @Nullable Integer driveMinutes,
      String cautions) {

    /** Keeps an own copy. */
    public Stop {
      outfits = List.copyOf(outfits);
    }
  }
}

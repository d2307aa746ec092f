package org.lightledger.session.outgoing;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;

/**
 * What the studio's calendar shows of a session.
 *
 * @param zone the zone of the place; all times are shown on its clocks
 * @param revision grows when what is shown changes, 0 or more
 * @param cancelled whether the session will not be
 * @param entries what it shows
 * @param takenBack what it showed before and that will not be
 */
public record Agenda(
    ZoneId zone, int revision, boolean cancelled, List<Entry> entries, List<Entry> takenBack) {

  /** Keeps own copies. */
  public Agenda {
    entries = List.copyOf(entries);
    takenBack = List.copyOf(takenBack);
  }

  /**
   * An agenda that takes nothing back.
   *
   * @param zone the zone of the place
   * @param revision grows when what is shown changes, 0 or more
   * @param cancelled whether the session will not be
   * @param entries what it shows
   */
  public Agenda(ZoneId zone, int revision, boolean cancelled, List<Entry> entries) {
    this(zone, revision, cancelled, entries, List.of());
  }

  /**
   * This agenda for a calendar that was given one before: what is no longer in it is taken back.
   *
   * @param given what the calendar was given
   * @return the agenda
   */
  public Agenda after(List<GivenEntry> given) {
    Set<String> shown = entries.stream().map(Entry::uid).collect(Collectors.toSet());
    return new Agenda(
        zone,
        revision,
        cancelled,
        entries,
        given.stream()
            .filter(entry -> !shown.contains(entry.uid()))
            .map(GivenEntry::takenBack)
            .toList());
  }

  /**
   * What a calendar is given with it. Entries for a whole day are left out, since each session has
   * one of that name always.
   *
   * @return the entries at this revision
   */
  public List<GivenEntry> given() {
    List<GivenEntry> given = new ArrayList<>();
    for (Entry entry : entries) {
      if (entry.time() instanceof Span span) {
        given.add(new GivenEntry(entry.uid(), entry.title(), span, revision));
      }
    }
    return given;
  }

  /**
   * One entry.
   *
   * @param uid a name that never changes and tells nothing
   * @param title what it is; it holds no full name of a minor, no contact and no home
   * @param words more of it, "" for nothing
   * @param place where, or null
   * @param time when
   * @param alarm how long before it the calendar calls, or null for never
   * @param busy whether it takes the owner's time
   */
  public record Entry(
      String uid,
      String title,
      String words,
      @Nullable Place place,
      Time time,
      @Nullable Duration alarm,
      boolean busy) {}

  /**
   * Where.
   *
   * @param words how to find it
   * @param point where it is
   */
  public record Place(String words, GeoPoint point) {}

  /** When. */
  public sealed interface Time {}

  /**
   * From an instant to another.
   *
   * @param from start
   * @param to end, later
   */
  public record Span(Instant from, Instant to) implements Time {
    /** Checks the order. */
    public Span {
      if (!from.isBefore(to)) {
        throw new IllegalArgumentException(
            "expected an end after the start, found " + from + " and " + to);
      }
    }
  }

  /**
   * A whole day.
   *
   * @param date the day
   */
  public record WholeDay(LocalDate date) implements Time {}
}

package org.lightledger.session;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * How long before a session something is due, days, each [0, 365].
 *
 * @param before by what goes out
 * @param rehearsal how long before it is time to rehearse
 */
public record LeadDays(Map<MessageKind, Integer> before, int rehearsal) {
  /** The longest lead, days: own choice. */
  public static final int LONGEST = 365;

  /** How long before a session a rehearsal is worth a thought, days: own choice. */
  private static final int USUAL_REHEARSAL = 10;

  private static final String REHEARSAL = "due.rehearsal-days";

  /** What holds until the owner says otherwise. */
  public static final LeadDays USUAL = read(name -> Optional.empty());

  /** Checks the days and keeps an own copy. */
  public LeadDays {
    before = Map.copyOf(before);
    for (MessageKind kind : MessageKind.values()) {
      Integer days = before.get(kind);
      if (days == null) {
        throw new IllegalArgumentException(
            "expected days for each message, found none for " + kind);
      }
      Texts.within("days before a session", days, 0, LONGEST);
    }
    Texts.within("days before a session", rehearsal, 0, LONGEST);
  }

  /**
   * How long before a session a message is due.
   *
   * @param kind the message
   * @return days
   */
  public int days(MessageKind kind) {
    Integer days = before.get(kind);
    return days == null ? kind.usualDaysBefore() : days;
  }

  /**
   * Reads the owner's settings; what is not set or no number of days is as usual.
   *
   * @param setting finds the value of a setting
   * @return the days
   */
  public static LeadDays read(Function<String, Optional<String>> setting) {
    Map<MessageKind, Integer> before = new EnumMap<>(MessageKind.class);
    for (MessageKind kind : MessageKind.values()) {
      before.put(kind, days(setting.apply(name(kind)), kind.usualDaysBefore()));
    }
    return new LeadDays(before, days(setting.apply(REHEARSAL), USUAL_REHEARSAL));
  }

  /**
   * The settings that keep these days.
   *
   * @return names and values
   */
  public Map<String, String> settings() {
    Map<String, String> settings = new TreeMap<>();
    for (MessageKind kind : MessageKind.values()) {
      settings.put(name(kind), String.valueOf(days(kind)));
    }
    settings.put(REHEARSAL, String.valueOf(rehearsal));
    return settings;
  }

  private static String name(MessageKind kind) {
    return "due." + kind.label() + "-days";
  }

  private static int days(Optional<String> text, int usual) {
    return text.filter(value -> value.matches("[0-9]{1,3}"))
        .map(Integer::valueOf)
        .filter(days -> days <= LONGEST)
        .orElse(usual);
  }
}

package org.lightledger.session.outgoing;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** What a template can ask for: a closed list. */
public enum Field {
  /** To whom the message goes: the client's first name, or a minor's guardian. */
  TO("to", "who reads it: the client, or the guardian of a minor", true),
  /** The client's first name. */
  CLIENT("client", "the client's first name", true),
  /** "your session", or "Ada's session" to a guardian. */
  WHOSE_SESSION("whose session", "\"your session\", or \"Ada's session\" to a guardian", true),
  /** Whom it is for. */
  WHOM("whom", "\"you\", or \"Ada\" to a guardian", true),
  /** What was booked. */
  PACKAGE("package", "the name of the package", true),
  /** Weekday and date. */
  DATE("date", "weekday and date", true),
  /** When all meet. */
  MEETING_TIME("meeting time", "when all meet, on the place's clock", true),
  /** Where all meet, in words. */
  MEETING_PLACE("meeting place", "where all meet, in words", true),
  /** Where all meet, for a map. */
  MEETING_POINT("meeting point", "its coordinates, and a link for a map on a phone", true),
  /** Whose clock the times are on. */
  TIME_ZONE("time zone", "the zone of the times, and a change of the clocks near the day", true),
  /** When it ends. */
  END_TIME("end time", "about when it ends", false),
  /** The stops in order. */
  STOPS("stops", "the stops in order: times, outfit, what to mind at each", true),
  /** How many outfits. */
  OUTFIT_LIMIT(
      "outfit limit",
      "how many outfits the plan wears, such as \"2 outfits\"; before there is one, the most booked",
      true),
  /** What the client brings. */
  BRING("what to bring", "what the client brings, from the settings", false),
  /** What every client is asked to mind. */
  SAFETY("safety", "the care that every client is asked for: the sun, paths, local rules", true),
  /** What the owner asks. */
  QUESTIONS("questions", "the questions to the client, numbered", true),
  /** Where the client answers. */
  HOW_TO_ANSWER(
      "how to answer",
      "the link to the client's form when an open link asks the questions, else to reply",
      true),
  /** Where the client sees the plan. */
  HOW_TO_SEE_IT(
      "how to see it",
      "the link to the plan with pictures when an open link shows it, else to ask for one",
      true),
  /** Where answers to common questions are. */
  COMMON_QUESTIONS("common questions", "the link to answers to common questions", true),
  /** The studio. */
  STUDIO("studio", "the studio's name", true),
  /** The studio's telephone. */
  STUDIO_PHONE("studio phone", "the studio's telephone number", true);

  private final String label;
  private final String meaning;
  private final boolean needed;

  Field(String label, String meaning, boolean needed) {
    this.label = label;
    this.meaning = meaning;
    this.needed = needed;
  }

  /**
   * The word in a template.
   *
   * @return for example "meeting time"
   */
  public String label() {
    return label;
  }

  /**
   * What stands in its place in a message.
   *
   * @return some words
   */
  public String meaning() {
    return meaning;
  }

  /**
   * Whether a message that asks for it can not go out without a value; else "not decided yet"
   * stands there.
   *
   * @return true when it blocks
   */
  public boolean needed() {
    return needed;
  }

  /**
   * Finds a field.
   *
   * @param word what stands between the braces; case and spaces around it do not matter
   * @return the field, or nothing when there is none of that word
   */
  public static Optional<Field> find(String word) {
    String wanted = word.strip().replaceAll("\\s+", " ").toLowerCase(Locale.ROOT);
    return Arrays.stream(values()).filter(field -> field.label.equals(wanted)).findFirst();
  }

  /**
   * All fields as a template writes them.
   *
   * @return "{{to}}, {{client}}, …"
   */
  public static String list() {
    return Arrays.stream(values())
        .map(field -> "{{" + field.label + "}}")
        .collect(Collectors.joining(", "));
  }
}

package org.lightledger.session.outgoing;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.EnumMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Contact;
import org.lightledger.session.MessageKind;

/**
 * What messages tell of the studio, from the owner's settings.
 *
 * @param name how it signs, "" when not said
 * @param contact its e-mail address and telephone number
 * @param commonQuestions the address of a page that answers common questions, or null
 * @param bring what clients bring
 * @param daysBefore how many days before a session each message is due
 */
public record Studio(
    String name,
    Contact contact,
    @Nullable String commonQuestions,
    String bring,
    Map<MessageKind, Integer> daysBefore) {
  /** The setting of the studio's name. */
  public static final String NAME = "studio.name";

  /** The setting of the studio's e-mail address. */
  public static final String EMAIL = "studio.email";

  /** The setting of the studio's telephone number. */
  public static final String PHONE = "studio.phone";

  /** The setting of the page that answers common questions. */
  public static final String COMMON_QUESTIONS = "messages.common-questions";

  /** The setting of what clients bring. */
  public static final String BRING = "messages.bring";

  private static final int MOST_DAYS = 180;

  /** Checks the name, the address and the days. */
  public Studio {
    name = Plainly.line(name);
    bring = Plainly.text(bring);
    if (commonQuestions != null && !isWebAddress(commonQuestions)) {
      throw new IllegalArgumentException(
          "expected the address of a web page such as https://example.org/questions, found \""
              + commonQuestions
              + "\"");
    }
    for (int days : daysBefore.values()) {
      if (days < 0 || days > MOST_DAYS) {
        throw new IllegalArgumentException(
            "expected 0 to " + MOST_DAYS + " days before a session, found " + days);
      }
    }
    daysBefore = Map.copyOf(daysBefore);
  }

  /**
   * The setting of the days before a session.
   *
   * @param kind of which message
   * @return its name
   */
  public static String daysSetting(MessageKind kind) {
    return "messages." + kind.label() + ".days-before";
  }

  /**
   * Reads the settings.
   *
   * @param settings names and values; what is absent has its usual value
   * @return the studio
   * @throws IllegalArgumentException when a value is none that was kept by this program
   */
  public static Studio of(Map<String, String> settings) {
    String link = settings.getOrDefault(COMMON_QUESTIONS, "").strip();
    Map<MessageKind, Integer> days = new EnumMap<>(MessageKind.class);
    for (MessageKind kind : MessageKind.values()) {
      String value = settings.get(daysSetting(kind));
      days.put(kind, value == null ? kind.usualDaysBefore() : number(value));
    }
    return new Studio(
        settings.getOrDefault(NAME, ""),
        Contact.parse(settings.getOrDefault(EMAIL, ""), settings.getOrDefault(PHONE, "")),
        link.isEmpty() ? null : link,
        settings.getOrDefault(BRING, StandardTemplates.BRING),
        days);
  }

  /**
   * How many days before a session a message is due.
   *
   * @param kind the message
   * @return days, 0 or more
   */
  public int daysBefore(MessageKind kind) {
    return daysBefore.getOrDefault(kind, kind.usualDaysBefore());
  }

  private static int number(String value) {
    try {
      return Integer.parseInt(value.strip());
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(
          "expected a whole number of days, found \"" + value + "\"", e);
    }
  }

  private static boolean isWebAddress(String text) {
    try {
      URI address = new URI(text);
      return ("https".equalsIgnoreCase(address.getScheme())
              || "http".equalsIgnoreCase(address.getScheme()))
          && address.getHost() != null;
    } catch (URISyntaxException e) {
      return false;
    }
  }
}

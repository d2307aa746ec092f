package org.lightledger.session.outgoing;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Contact;
import org.lightledger.session.LeadDays;
import org.lightledger.session.MessageKind;

/**
 * What messages tell of the studio, from the owner's settings.
 *
 * @param name how it signs, "" when not said
 * @param contact its e-mail address and telephone number
 * @param commonQuestions the address of a page that answers common questions, or null
 * @param bring what clients bring
 * @param leads how many days before a session each message is due
 */
public record Studio(
    String name, Contact contact, @Nullable String commonQuestions, String bring, LeadDays leads) {
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

  /** Checks the name and the address. */
  public Studio {
    name = Plainly.line(name);
    bring = Plainly.text(bring);
    if (commonQuestions != null && !isWebAddress(commonQuestions)) {
      throw new IllegalArgumentException(
          "expected the address of a web page such as https://example.org/questions, found \""
              + commonQuestions
              + "\"");
    }
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
    return new Studio(
        settings.getOrDefault(NAME, ""),
        Contact.parse(settings.getOrDefault(EMAIL, ""), settings.getOrDefault(PHONE, "")),
        link.isEmpty() ? null : link,
        settings.getOrDefault(BRING, StandardTemplates.BRING),
        LeadDays.read(name -> Optional.ofNullable(settings.get(name))));
  }

  /**
   * How many days before a session a message is due.
   *
   * @param kind the message
   * @return days, 0 or more
   */
  public int daysBefore(MessageKind kind) {
    return leads.days(kind);
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

package org.lightledger.session;

import java.util.Locale;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * How somebody is reached.
 *
 * @param email an address such as "ada@example.org", or null when not known
 * @param phone a telephone number as it is dialled, or null when not known
 */
public record Contact(@Nullable String email, @Nullable String phone) {
  /** Nothing known. */
  public static final Contact NONE = new Contact(null, null);

  /**
   * What RFC 5321 allows without quoting: a dot-atom, "@", and a name or several with dots. Line
   * breaks, commas and angle brackets can not get through, so an address can not become a header.
   */
  private static final Pattern EMAIL =
      Pattern.compile(
          "[\\p{L}\\p{N}!#$%&'*+/=?^_`{|}~-]+(\\.[\\p{L}\\p{N}!#$%&'*+/=?^_`{|}~-]+)*"
              + "@[\\p{L}\\p{N}]([\\p{L}\\p{N}-]*[\\p{L}\\p{N}])?"
              + "(\\.[\\p{L}\\p{N}]([\\p{L}\\p{N}-]*[\\p{L}\\p{N}])?)*");

  private static final int LONGEST_EMAIL = 254;
  private static final Pattern PHONE = Pattern.compile("\\+?[0-9][0-9 ()/.-]{2,38}");

  /** Checks both. */
  public Contact {
    if (email != null && (email.length() > LONGEST_EMAIL || !EMAIL.matcher(email).matches())) {
      throw new IllegalArgumentException(
          "expected an e-mail address such as ada@example.org, found \"" + email + "\"");
    }
    if (phone != null && !PHONE.matcher(phone).matches()) {
      throw new IllegalArgumentException(
          "expected a telephone number of digits, spaces, brackets and hyphens, found \""
              + phone
              + "\"");
    }
  }

  /**
   * Reads what somebody typed; blank is not known.
   *
   * @param email an address or blank
   * @param phone a number or blank
   * @return the contact
   * @throws IllegalArgumentException naming what was found and expected
   */
  public static Contact parse(String email, String phone) {
    return new Contact(
        email.isBlank() ? null : email.strip().toLowerCase(Locale.ROOT),
        phone.isBlank() ? null : phone.strip());
  }

  /**
   * Whether nothing is known.
   *
   * @return true without address and number
   */
  public boolean isEmpty() {
    return email == null && phone == null;
  }
}

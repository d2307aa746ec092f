package org.lightledger.access;

import java.text.Normalizer;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * What a password must be: long enough, and not one that everybody tries first. Length counts and
 * composition does not (NIST SP 800-63B-4, section 3.1.1.2, which asks for 15 characters where the
 * password is the only factor, for a list of expected passwords to be refused, and for no rules
 * about kinds of characters).
 */
public final class PasswordRules {
  /** NIST SP 800-63B-4, 3.1.1.2: the least length of a password that is the only factor. */
  public static final int LEAST_CHARACTERS = 15;

  /** At least 64 are to be allowed (as above); the bound itself is our own choice. */
  public static final int MOST_CHARACTERS = 256;

  /** Runs that hands and alphabets make; they go round, and backwards as well. Own choice. */
  private static final List<String> RUNS =
      List.of(
          "0123456789", "1234567890", "abcdefghijklmnopqrstuvwxyz", "qwertyuiopasdfghjklzxcvbnm");

  /** Words that a guesser of this program tries first. Own choice. */
  private static final Set<String> EXPECTED =
      Set.of(
          "lightledger",
          "mylightledger",
          "password",
          "mypassword",
          "passwordpassword",
          "lightledgerpassword",
          "passwordlightledger",
          "photography",
          "photographer",
          "portraitphotographer",
          "letmein",
          "changeme",
          "correcthorsebatterystaple");

  private static final Pattern BETWEEN = Pattern.compile("[\\p{P}\\p{Z}\\p{C}]+");
  private static final Pattern OUTER_DIGITS = Pattern.compile("^\\p{N}+|\\p{N}+$");
  private static final Pattern REPEATED = Pattern.compile("(.+?)\\1+");

  private PasswordRules() {}

  /**
   * One form for what different keyboards send: NFKC, as NIST SP 800-63B-4 3.1.1.2 advises.
   *
   * @param password as it was typed
   * @return the form that is hashed
   */
  public static String normal(String password) {
    return Normalizer.normalize(password, Normalizer.Form.NFKC);
  }

  /**
   * Checks a password that is to be set.
   *
   * @param password as it was typed
   * @throws IllegalArgumentException when it may not be used, with the reason; the password itself
   *     is never part of the message
   */
  public static void require(String password) {
    String normal = normal(password);
    int length = normal.codePointCount(0, normal.length());
    if (length < LEAST_CHARACTERS || length > MOST_CHARACTERS) {
      throw new IllegalArgumentException(
          "expected a password of "
              + LEAST_CHARACTERS
              + " to "
              + MOST_CHARACTERS
              + " characters, found "
              + length
              + "; four or five words that have nothing to do with each other are long and easy to"
              + " keep in mind");
    }
    if (isExpected(normal)) {
      throw new IllegalArgumentException(
          "expected a password that nobody tries first, found a run, a repetition or the name of a"
              + " thing at hand; take four or five words that have nothing to do with each other");
    }
  }

  private static boolean isExpected(String normal) {
    String plain = BETWEEN.matcher(normal.toLowerCase(Locale.ROOT)).replaceAll("");
    String word = OUTER_DIGITS.matcher(plain).replaceAll("");
    return plain.isEmpty()
        || REPEATED.matcher(plain).matches()
        || EXPECTED.contains(word)
        || REPEATED.matcher(word).matches()
        || RUNS.stream().anyMatch(run -> isPartOf(run, plain));
  }

  private static boolean isPartOf(String run, String plain) {
    String round = run.repeat(2 + plain.length() / run.length());
    return round.contains(plain) || new StringBuilder(round).reverse().indexOf(plain) >= 0;
  }
}

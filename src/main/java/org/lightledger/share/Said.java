package org.lightledger.share;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.jspecify.annotations.Nullable;

/**
 * Words that somebody sends from a page, and what the page showed in their place. So words that
 * were left as they were shown undo nothing that was said elsewhere meanwhile.
 *
 * @param words what is said, "" for nothing
 * @param over the {@linkplain #fingerprint fingerprint} of what the page showed, or null where
 *     whatever is kept is to be replaced
 */
public record Said(String words, @Nullable String over) {
  /** So many digits name what was shown: 64 bits, which no two answers share by chance. */
  private static final int FINGERPRINT_LENGTH = 16;

  /**
   * Words that replace whatever is kept.
   *
   * @param words what is said, "" for nothing
   * @return the words
   */
  public static Said anew(String words) {
    return new Said(words, null);
  }

  /**
   * Nothing said, so that whatever is kept stays.
   *
   * @return words that were left as they were shown
   */
  public static Said nothing() {
    return new Said("", fingerprint(""));
  }

  /**
   * Tells words from others, without saying them. Spaces around them do not count, nor how lines
   * end: browsers change both.
   *
   * @param words any words
   * @return 16 digits of 0-9 a-f
   */
  public static String fingerprint(String words) {
    String plain = words.replace("\r\n", "\n").replace('\r', '\n').strip();
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(plain.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest).substring(0, FINGERPRINT_LENGTH);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }

  /**
   * Whether they are other words than the page showed.
   *
   * @return false when they were left as they were
   */
  public boolean isChanged() {
    return over == null || !over.equals(fingerprint(words));
  }

  /**
   * Whether what is kept became something else meanwhile, too: then neither can be taken unasked.
   *
   * @param kept what is kept now, "" for nothing
   * @return true when both sides changed, and not to the same
   */
  public boolean clashesWith(String kept) {
    String now = fingerprint(kept);
    return over != null && isChanged() && !over.equals(now) && !fingerprint(words).equals(now);
  }

  /**
   * What is to be kept.
   *
   * @param kept what is kept now, "" for nothing
   * @return the words if they were changed and clash with nothing, else what is kept
   */
  public String onto(String kept) {
    return isChanged() && !clashesWith(kept) ? words : kept;
  }
}

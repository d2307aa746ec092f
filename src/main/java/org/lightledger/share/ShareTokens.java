package org.lightledger.share;

import java.security.SecureRandom;
import java.util.Base64;
import java.util.regex.Pattern;

/** Makes the secret part of a share's link, 192 random bits, and a share's keys. */
public final class ShareTokens {
  private static final int BYTES = 24;
  private static final Pattern FORM = Pattern.compile("[A-Za-z0-9_-]{32}");

  private final SecureRandom random = new SecureRandom();

  /**
   * A fresh token, written with URL-safe Base64.
   *
   * @return 32 characters out of A-Z, a-z, 0-9, "-" and "_"
   */
  public String next() {
    byte[] bytes = new byte[BYTES];
    random.nextBytes(bytes);
    return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
  }

  /**
   * Fresh keys.
   *
   * @return the keys of a new share
   */
  public ShareKeys keys() {
    return ShareKeys.next(random);
  }

  /**
   * Whether a text can be a token at all.
   *
   * @param text anything
   * @return true when it has a token's form
   */
  public static boolean hasForm(String text) {
    return FORM.matcher(text).matches();
  }
}

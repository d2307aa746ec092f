package org.lightledger.share;

import java.nio.charset.StandardCharsets;
import java.security.InvalidKeyException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.regex.Pattern;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * A share's own secret. It signs the file that a client returns (HMAC-SHA-256, RFC 2104), and gives
 * spots and questions names on the client's page that tell nothing of the ledger's numbers and stay
 * the same when the owner changes their order.
 *
 * @param secret 256 random bits as 64 digits of 0-9 a-f
 * @param keyId 64 random bits as 16 digits of 0-9 a-f, by which a returned file names its share
 */
public record ShareKeys(String secret, String keyId) {
  private static final Pattern SECRET = Pattern.compile("[0-9a-f]{64}");
  private static final Pattern KEY_ID = Pattern.compile("[0-9a-f]{16}");
  private static final String HMAC = "HmacSHA256";

  /** So many digits name a spot or a question: 48 bits tell a few dozen of them apart. */
  private static final int NAME_LENGTH = 12;

  /** Checks the form. */
  public ShareKeys {
    if (!SECRET.matcher(secret).matches() || !KEY_ID.matcher(keyId).matches()) {
      throw new IllegalArgumentException(
          "expected a share's secret of 64 and its name of 16 digits of 0-9 a-f");
    }
  }

  /**
   * Fresh keys.
   *
   * @param random a source of secrets
   * @return the keys
   */
  public static ShareKeys next(SecureRandom random) {
    byte[] secret = new byte[32];
    byte[] name = new byte[8];
    random.nextBytes(secret);
    random.nextBytes(name);
    return new ShareKeys(HexFormat.of().formatHex(secret), HexFormat.of().formatHex(name));
  }

  /**
   * What a spot is called on the client's page.
   *
   * @param spotId the ledger's number of it
   * @return 12 digits of 0-9 a-f
   */
  public String spot(long spotId) {
    return mac("spot " + spotId).substring(0, NAME_LENGTH);
  }

  /**
   * What a question is called on the client's page.
   *
   * @param questionId the ledger's number of it
   * @return 12 digits of 0-9 a-f
   */
  public String question(long questionId) {
    return mac("question " + questionId).substring(0, NAME_LENGTH);
  }

  /**
   * Signs a text.
   *
   * @param text any text
   * @return 64 digits of 0-9 a-f
   */
  public String mac(String text) {
    try {
      Mac mac = Mac.getInstance(HMAC);
      mac.init(new SecretKeySpec(HexFormat.of().parseHex(secret), HMAC));
      return HexFormat.of().formatHex(mac.doFinal(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException | InvalidKeyException e) {
      throw new IllegalStateException("every Java runtime has HMAC-SHA-256", e);
    }
  }

  /**
   * Whether a signature is that of a text; the time it takes tells nothing of the right one.
   *
   * @param text any text
   * @param signature what stands for its signature
   * @return true when it is
   */
  public boolean signed(String text, String signature) {
    return MessageDigest.isEqual(
        mac(text).getBytes(StandardCharsets.UTF_8), signature.getBytes(StandardCharsets.UTF_8));
  }

  /** Tells nothing of the secret, so that it ends in no log. */
  @Override
  public String toString() {
    return "ShareKeys[keyId=" + keyId + "]";
  }
}

package org.lightledger.session.outgoing;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.MessageKind;

/**
 * A message as it would go out.
 *
 * @param kind what it is
 * @param toName who reads it
 * @param toEmail where it goes, or null when no address is known
 * @param subject one line without control characters
 * @param body plain text, lines ended by "\n"
 * @param missing what keeps it from going out, each with what to do; empty when nothing does
 */
public record Letter(
    MessageKind kind,
    String toName,
    @Nullable String toEmail,
    String subject,
    String body,
    List<String> missing) {

  /** Keeps an own copy. */
  public Letter {
    missing = List.copyOf(missing);
  }

  /**
   * Whether it can go out.
   *
   * @return true when nothing is missing
   */
  public boolean ready() {
    return missing.isEmpty();
  }

  /**
   * A fingerprint of what the owner has before the eyes, so that nothing else is sent.
   *
   * @return 16 hexadecimal digits
   */
  public String fingerprint() {
    String all = String.join("\u0000", kind.name(), toName, String.valueOf(toEmail), subject, body);
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(all.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest, 0, 8);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }
}

package org.lightledger.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.time.Duration;
import java.time.Instant;
import java.util.Base64;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.Map;

/**
 * Who is logged in. A session is known by a random token that only the browser has; held here, in
 * memory alone, is its SHA-256, so that nothing that is read out of this program logs anybody in,
 * and a restart logs everybody out. Safe for use by several threads.
 */
public final class Sessions {
  /**
   * A session that nobody used for so long is over. Own choice: half a working day in the field.
   */
  public static final Duration LONGEST_IDLE = Duration.ofHours(12);

  /**
   * However much it is used, a session is over after so long. Own choice, below the 30 days of NIST
   * SP 800-63B-4, section 2.1.3.
   */
  public static final Duration LONGEST = Duration.ofDays(7);

  /** One owner with a few browsers; more would only be memory for a guesser. Own choice. */
  private static final int MOST = 64;

  /** Twice the 128 bits that a token needs. */
  private static final int TOKEN_BYTES = 32;

  private record Open(String password, Instant begun, Instant used) {
    boolean holds(String current, Instant now) {
      return password.equals(current)
          && now.isBefore(used.plus(LONGEST_IDLE))
          && now.isBefore(begun.plus(LONGEST));
    }
  }

  private final SecureRandom random = new SecureRandom();
  private final Map<String, Open> open = new HashMap<>();

  /**
   * Begins a session.
   *
   * @param password what the ledger keeps of the password; another one ends the session
   * @param now the present time
   * @return the token for the browser: 256 random bits in URL-safe Base64
   */
  public synchronized String begin(String password, Instant now) {
    open.values().removeIf(session -> !session.holds(password, now));
    while (open.size() >= MOST) {
      open.entrySet().stream()
          .min(Comparator.comparing(entry -> entry.getValue().used()))
          .ifPresent(oldest -> open.remove(oldest.getKey()));
    }
    byte[] bytes = new byte[TOKEN_BYTES];
    random.nextBytes(bytes);
    String token = Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    open.put(sha256(token), new Open(password, now, now));
    return token;
  }

  /**
   * Whether a token belongs to a session that goes on; if so, it was used now.
   *
   * @param token what the browser sent
   * @param password what the ledger keeps of the password at present
   * @param now the present time
   * @return true when the browser is logged in
   */
  public synchronized boolean use(String token, String password, Instant now) {
    String key = sha256(token);
    Open session = open.get(key);
    if (session == null) {
      return false;
    }
    if (!session.holds(password, now)) {
      open.remove(key);
      return false;
    }
    open.put(key, new Open(session.password(), session.begun(), now));
    return true;
  }

  /**
   * Ends a session.
   *
   * @param token what the browser sent; an unknown one changes nothing
   */
  public synchronized void end(String token) {
    open.remove(sha256(token));
  }

  /**
   * How many sessions are held.
   *
   * @return their number, at most 64
   */
  public synchronized int count() {
    return open.size();
  }

  private static String sha256(String token) {
    try {
      byte[] bytes = token.getBytes(StandardCharsets.UTF_8);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java runtime has SHA-256", e);
    }
  }
}

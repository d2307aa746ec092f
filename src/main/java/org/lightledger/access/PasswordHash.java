package org.lightledger.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.Base64;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;

/**
 * What is kept of a password: an Argon2id hash (RFC 9106) with its salt and costs, written as a PHC
 * string, "$argon2id$v=19$m=65536,t=3,p=4$SALT$HASH". Costs stand beside each hash, so that they
 * can be raised later: an older hash still tells right from wrong, and says that it is outdated.
 */
public final class PasswordHash {
  /** RFC 9106, section 4, second recommended option: 64 MiB, three passes, four lanes. */
  private static final Costs COSTS = new Costs(65_536, 3, 4);

  /** RFC 9106, section 4: 128 bits of salt, 256 bits of hash. */
  private static final int SALT_BYTES = 16;

  private static final int HASH_BYTES = 32;

  /** A ledger from elsewhere must not make a login eat the machine. Own choice. */
  private static final Costs MOST = new Costs(262_144, 10, 16);

  private static final Pattern FORM =
      Pattern.compile(
          "\\$argon2id\\$v=19\\$m=(\\d{1,7}),t=(\\d{1,3}),p=(\\d{1,3})"
              + "\\$([A-Za-z0-9+/]{11,86})\\$([A-Za-z0-9+/]{22,86})");

  private record Costs(int memoryKiB, int passes, int lanes) {
    boolean isWithin(Costs most) {
      return memoryKiB <= most.memoryKiB
          && passes <= most.passes
          && lanes <= most.lanes
          && passes >= 1
          && lanes >= 1
          && memoryKiB >= 8 * lanes;
    }
  }

  private final Costs costs;
  private final byte[] salt;
  private final byte[] hash;

  private PasswordHash(Costs costs, byte[] salt, byte[] hash) {
    this.costs = costs;
    this.salt = salt;
    this.hash = hash;
  }

  /**
   * Hashes a password with the costs of today.
   *
   * @param password as it was typed
   * @param random makes the salt
   * @return its hash
   */
  public static PasswordHash of(String password, SecureRandom random) {
    byte[] salt = new byte[SALT_BYTES];
    random.nextBytes(salt);
    return new PasswordHash(COSTS, salt, argon2id(password, COSTS, salt, HASH_BYTES));
  }

  /**
   * Reads what {@link #text} wrote.
   *
   * @param text a PHC string
   * @return the hash, or nothing when the text is none or its costs are out of bounds
   */
  public static Optional<PasswordHash> parse(String text) {
    Matcher form = FORM.matcher(text);
    if (!form.matches()) {
      return Optional.empty();
    }
    Costs costs =
        new Costs(
            Integer.parseInt(form.group(1)),
            Integer.parseInt(form.group(2)),
            Integer.parseInt(form.group(3)));
    if (!costs.isWithin(MOST)) {
      return Optional.empty();
    }
    try {
      Base64.Decoder base64 = Base64.getDecoder();
      return Optional.of(
          new PasswordHash(costs, base64.decode(form.group(4)), base64.decode(form.group(5))));
    } catch (IllegalArgumentException e) {
      return Optional.empty();
    }
  }

  /**
   * Whether a password is the one that was hashed. Takes some tenths of a second and {@code m} KiB
   * of memory, on purpose.
   *
   * @param password as it was typed
   * @return true when it is
   */
  public boolean matches(String password) {
    return MessageDigest.isEqual(hash, argon2id(password, costs, salt, hash.length));
  }

  /**
   * Whether the costs are other than those of today.
   *
   * @return true when the password should be hashed anew the next time it is known
   */
  public boolean isOutdated() {
    return !costs.equals(COSTS) || salt.length < SALT_BYTES || hash.length < HASH_BYTES;
  }

  /**
   * The form to keep.
   *
   * @return a PHC string
   */
  public String text() {
    Base64.Encoder base64 = Base64.getEncoder().withoutPadding();
    return "$argon2id$v=19$m="
        + costs.memoryKiB()
        + ",t="
        + costs.passes()
        + ",p="
        + costs.lanes()
        + "$"
        + base64.encodeToString(salt)
        + "$"
        + base64.encodeToString(hash);
  }

  private static byte[] argon2id(String password, Costs costs, byte[] salt, int bytes) {
    Argon2BytesGenerator generator = new Argon2BytesGenerator();
    generator.init(
        new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
            .withVersion(Argon2Parameters.ARGON2_VERSION_13)
            .withMemoryAsKB(costs.memoryKiB())
            .withIterations(costs.passes())
            .withParallelism(costs.lanes())
            .withSalt(salt)
            .build());
    byte[] secret = PasswordRules.normal(password).getBytes(StandardCharsets.UTF_8);
    byte[] hash = new byte[bytes];
    generator.generateBytes(secret, hash);
    Arrays.fill(secret, (byte) 0);
    return hash;
  }
}

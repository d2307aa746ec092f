package org.lightledger.session.mail;

import java.util.Arrays;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * The owner's mail server.
 *
 * @param host its name
 * @param port its port, [1, 65535]
 * @param security how the way there is kept private
 * @param user the name to log in with, or null to log in not at all
 * @param password its password, or null when there is none
 */
public record MailServer(
    String host, int port, Security security, @Nullable String user, @Nullable String password) {
  /** The setting of the server's name. */
  public static final String HOST = "mail.host";

  /** The setting of its port. */
  public static final String PORT = "mail.port";

  /** The setting of how the way there is kept private. */
  public static final String SECURITY = "mail.security";

  /** The setting of the name to log in with. */
  public static final String USER = "mail.user";

  /** The setting of the password; the environment's goes first. */
  public static final String PASSWORD = "mail.password";

  /** The environment variable of the password. */
  public static final String PASSWORD_VARIABLE = "LIGHTLEDGER_MAIL_PASSWORD";

  private static final int HIGHEST_PORT = 65_535;
  private static final Pattern HOST_FORM = Pattern.compile("[\\p{L}\\p{N}.:\\[\\]-]{1,253}");
  private static final Set<String> THIS_MACHINE = Set.of("localhost", "127.0.0.1", "::1", "[::1]");

  /** How the way to the server is kept private; ports by RFC 6409 and RFC 8314. */
  public enum Security {
    /** It begins in the clear and must change to TLS before anything is said (RFC 3207). */
    STARTTLS("starttls", "STARTTLS, which must succeed", 587),
    /** TLS from the first byte. */
    TLS("tls", "TLS from the start", 465),
    /** In the clear, to a server on this machine alone. */
    NONE("none", "none, for a server on this computer", 25);

    private final String code;
    private final String label;
    private final int usualPort;

    Security(String code, String label, int usualPort) {
      this.code = code;
      this.label = label;
      this.usualPort = usualPort;
    }

    /**
     * The word in the settings.
     *
     * @return for example "starttls"
     */
    public String code() {
      return code;
    }

    /**
     * The words on screens.
     *
     * @return for example "TLS from the start"
     */
    public String label() {
      return label;
    }

    /**
     * The port that servers listen on for it.
     *
     * @return a port
     */
    public int usualPort() {
      return usualPort;
    }

    /**
     * Reads a code.
     *
     * @param code as {@link #code} writes it; "" for STARTTLS
     * @return the way
     * @throws IllegalArgumentException naming what was found and what is possible
     */
    public static Security parse(String code) {
      if (code.isBlank()) {
        return STARTTLS;
      }
      return Arrays.stream(values())
          .filter(security -> security.code.equals(code.strip()))
          .findFirst()
          .orElseThrow(
              () ->
                  new IllegalArgumentException(
                      "expected one of "
                          + Arrays.stream(values())
                              .map(Security::code)
                              .collect(Collectors.joining(", "))
                          + ", found \""
                          + code
                          + "\""));
    }
  }

  /** Checks the server. */
  public MailServer {
    if (!HOST_FORM.matcher(host).matches()) {
      throw new IllegalArgumentException(
          "expected the name of a mail server such as smtp.example.org, found \"" + host + "\"");
    }
    if (port < 1 || port > HIGHEST_PORT) {
      throw new IllegalArgumentException("expected a port from 1 to 65535, found " + port);
    }
    if (security == Security.NONE && !THIS_MACHINE.contains(host)) {
      throw new IllegalArgumentException(
          "expected starttls or tls for a server that is not this computer, found none with "
              + host
              + "; without them everybody on the way reads messages and password");
    }
    if (user != null && user.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException(
          "expected a name to log in with on one line, found a control character");
    }
  }

  /**
   * Reads the settings.
   *
   * @param settings names and values
   * @param environment finds an environment variable, null when it is not set
   * @return the server, or nothing when none is set
   * @throws IllegalArgumentException when a value can not be used
   */
  public static Optional<MailServer> of(
      Map<String, String> settings, UnaryOperator<@Nullable String> environment) {
    String host = settings.getOrDefault(HOST, "").strip();
    if (host.isEmpty()) {
      return Optional.empty();
    }
    Security security = Security.parse(settings.getOrDefault(SECURITY, ""));
    String user = settings.getOrDefault(USER, "").strip();
    String fromOutside = environment.apply(PASSWORD_VARIABLE);
    return Optional.of(
        new MailServer(
            host,
            port(settings.getOrDefault(PORT, ""), security),
            security,
            user.isEmpty() ? null : user,
            fromOutside == null || fromOutside.isEmpty() ? settings.get(PASSWORD) : fromOutside));
  }

  private static int port(String text, Security security) {
    try {
      return text.isBlank() ? security.usualPort() : Integer.parseInt(text.strip());
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException("expected a port such as 587, found \"" + text + "\"", e);
    }
  }

  /** Tells everything but the password, so that it ends in no log. */
  @Override
  public String toString() {
    return "MailServer[" + host + ":" + port + ", " + security.code + "]";
  }
}

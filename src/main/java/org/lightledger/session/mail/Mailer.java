package org.lightledger.session.mail;

import jakarta.mail.AuthenticationFailedException;
import jakarta.mail.MessagingException;
import jakarta.mail.SendFailedException;
import jakarta.mail.Session;
import jakarta.mail.Transport;
import jakarta.mail.internet.MimeMessage;
import java.net.SocketTimeoutException;
import java.time.Instant;
import java.util.Map;
import java.util.Properties;
import javax.net.ssl.SSLException;
import org.eclipse.angus.mail.util.MailConnectException;
import org.lightledger.session.outgoing.Letter;
import org.lightledger.session.outgoing.Studio;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Hands letters to the owner's mail server. */
public final class Mailer {
  private static final Logger LOG = LoggerFactory.getLogger(Mailer.class);
  private static final int CONNECT_MS = 10_000;
  private static final int ANSWER_MS = 20_000;

  private final MailServer server;
  private final Map<String, String> trust;

  /**
   * A mailer.
   *
   * @param server the owner's server
   */
  public Mailer(MailServer server) {
    this(server, Map.of());
  }

  /** One that also trusts what tests need. */
  Mailer(MailServer server, Map<String, String> trust) {
    this.server = server;
    this.trust = Map.copyOf(trust);
  }

  /**
   * Sends a letter. When it returns, the server has taken the letter.
   *
   * @param letter the letter; it must be ready
   * @param studio who writes
   * @param now the present
   * @throws MailException when the server did not take it; the message says why
   */
  public void send(Letter letter, Studio studio, Instant now) {
    Session session = Session.getInstance(properties());
    try {
      MimeMessage message = MailLetter.message(session, letter, studio, now);
      message.saveChanges();
      Transport transport = session.getTransport("smtp");
      try {
        transport.connect(server.host(), server.port(), server.user(), server.password());
        transport.sendMessage(message, message.getAllRecipients());
      } finally {
        leave(transport);
      }
    } catch (MessagingException e) {
      throw new MailException(words(e), e);
    }
  }

  /** Whether the good-bye is heard changes nothing: the server has taken the letter, or has not. */
  private static void leave(Transport transport) {
    try {
      transport.close();
    } catch (MessagingException e) {
      LOG.debug("the mail server hung up before the good-bye", e);
    }
  }

  private Properties properties() {
    Properties properties = new Properties();
    properties.put("mail.smtp.connectiontimeout", String.valueOf(CONNECT_MS));
    properties.put("mail.smtp.timeout", String.valueOf(ANSWER_MS));
    properties.put("mail.smtp.writetimeout", String.valueOf(ANSWER_MS));
    properties.put("mail.smtp.auth", String.valueOf(server.user() != null));
    // The machine's own name is nobody's business (RFC 5321, section 4.1.3, allows a literal).
    properties.put("mail.smtp.localhost", "[127.0.0.1]");
    boolean startTls = server.security() == MailServer.Security.STARTTLS;
    properties.put("mail.smtp.starttls.enable", String.valueOf(startTls));
    properties.put("mail.smtp.starttls.required", String.valueOf(startTls));
    properties.put(
        "mail.smtp.ssl.enable", String.valueOf(server.security() == MailServer.Security.TLS));
    properties.put("mail.smtp.ssl.checkserveridentity", "true");
    properties.putAll(trust);
    return properties;
  }

  private String words(MessagingException problem) {
    String where = "the mail server " + server.host() + ":" + server.port();
    if (problem instanceof AuthenticationFailedException) {
      return where
          + " refuses the name or the password; correct them under the settings of messages, or in"
          + " the environment variable "
          + MailServer.PASSWORD_VARIABLE;
    }
    if (has(problem, SSLException.class)) {
      return where
          + " can not be reached privately: its certificate is not trusted, or it speaks no TLS"
          + " there; check the name, the port and the kind of security";
    }
    if (has(problem, SocketTimeoutException.class)) {
      return where + " does not answer in time; check the name and the port, or try again later";
    }
    if (problem instanceof MailConnectException) {
      return where + " can not be reached; check the name, the port and your network";
    }
    if (String.valueOf(problem.getMessage()).contains("STARTTLS is required")) {
      return where
          + " offers no STARTTLS, and nothing was sent in the clear; take TLS from the start, or"
          + " another port";
    }
    if (problem instanceof SendFailedException) {
      return where + " refuses the message or the address: " + problem.getMessage();
    }
    return where + " did not take the message: " + problem.getMessage();
  }

  /** Whether something lies behind a problem, by its causes or the library's own chain. */
  private static boolean has(Throwable problem, Class<? extends Throwable> kind) {
    for (Throwable at = problem; at != null; at = at.getCause()) {
      if (kind.isInstance(at)) {
        return true;
      }
    }
    return problem instanceof MessagingException mail
        && mail.getNextException() != null
        && kind.isInstance(mail.getNextException());
  }
}

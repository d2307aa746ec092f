package org.lightledger.session.mail;

import jakarta.mail.Message;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.UnsupportedEncodingException;
import java.net.IDN;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Properties;
import java.util.UUID;
import org.lightledger.session.outgoing.Letter;
import org.lightledger.session.outgoing.Studio;

/** A letter as an e-mail message (RFC 5322, RFC 2045). */
public final class MailLetter {
  /** Section 3.3 of RFC 5322. */
  private static final DateTimeFormatter DATE =
      DateTimeFormatter.ofPattern("EEE, d MMM uuuu HH:mm:ss xx", Locale.ENGLISH);

  private MailLetter() {}

  /**
   * A draft for the owner's mail program.
   *
   * @param letter the letter; it must be ready
   * @param studio who writes
   * @param now the present
   * @return the content of an .eml file
   * @throws MailException when it can not be made; the message says why
   */
  public static byte[] draft(Letter letter, Studio studio, Instant now) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      MimeMessage message = message(Session.getInstance(new Properties()), letter, studio, now);
      message.setHeader("X-Unsent", "1");
      message.saveChanges();
      message.writeTo(out);
    } catch (MessagingException e) {
      throw new MailException("the message can not be written as e-mail: " + e.getMessage(), e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }

  static MimeMessage message(Session session, Letter letter, Studio studio, Instant now)
      throws MessagingException {
    if (!letter.ready()) {
      throw new MailException(
          "the message is not ready: " + String.join("; ", letter.missing()), null);
    }
    String from = studio.contact().email();
    if (from == null) {
      throw new MailException(
          "expected the studio's e-mail address, found none; enter it under the settings of"
              + " messages",
          null);
    }
    String to = letter.toEmail();
    if (to == null) {
      throw new MailException(
          "expected an e-mail address of "
              + letter.toName()
              + ", found none; enter it with the client, or copy the text",
          null);
    }
    String sender = ascii(from);
    MimeMessage message = new Identified(session, sender.substring(sender.indexOf('@')));
    message.setFrom(address(sender, studio.name()));
    message.setRecipient(Message.RecipientType.TO, address(ascii(to), letter.toName()));
    message.setSubject(letter.subject(), StandardCharsets.UTF_8.name());
    message.setHeader("Date", DATE.format(now.atOffset(ZoneOffset.UTC)));
    message.setText(letter.body().replace("\n", "\r\n") + "\r\n", StandardCharsets.UTF_8.name());
    return message;
  }

  private static InternetAddress address(String address, String name) throws MessagingException {
    InternetAddress written = new InternetAddress(address, true);
    try {
      if (!name.isBlank()) {
        written.setPersonal(name, StandardCharsets.UTF_8.name());
      }
    } catch (UnsupportedEncodingException e) {
      throw new IllegalStateException("every Java runtime has UTF-8", e);
    }
    return written;
  }

  /** The address with its domain as name servers know it (RFC 5890). */
  private static String ascii(String address) {
    int at = address.lastIndexOf('@');
    String local = address.substring(0, at);
    if (!local.chars().allMatch(c -> c < 0x80)) {
      throw new MailException(
          "expected an address with plain letters before the @, found "
              + address
              + "; few mail servers take others, so copy the text",
          null);
    }
    try {
      return local + "@" + IDN.toASCII(address.substring(at + 1));
    } catch (IllegalArgumentException e) {
      throw new MailException(
          "expected an e-mail address that name servers can know, found " + address, e);
    }
  }

  /** A message whose name does not tell the machine's. */
  private static final class Identified extends MimeMessage {
    private final String domain;

    Identified(Session session, String domain) {
      super(session);
      this.domain = domain;
    }

    @Override
    protected void updateMessageID() throws MessagingException {
      setHeader("Message-ID", "<" + UUID.randomUUID() + domain + ">");
    }
  }
}

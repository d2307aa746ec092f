package org.lightledger.web;

import java.util.List;

/**
 * What goes out to the client of a session.
 *
 * @param sessionId the ledger's number of the session
 * @param title the client's first name and the day
 * @param messages the messages in the order they are due
 * @param sent what went out before, newest first
 * @param server the mail server in words, "" when none is set
 * @param done what has just been done, "" for nothing
 * @param problem what stands in the way of what was just asked for, "" for nothing
 */
public record MessagesPage(
    long sessionId,
    String title,
    List<Message> messages,
    List<Sent> sent,
    String server,
    String done,
    String problem) {

  /**
   * A message.
   *
   * @param kind its word in addresses
   * @param heading its name
   * @param due when it is due
   * @param to who reads it, with the address as far as it is known
   * @param hasAddress whether an address is known
   * @param subject its subject
   * @param body its text
   * @param missing what keeps it from going out
   * @param hint what would make it better, "" for nothing
   * @param seen what is before the owner's eyes, so that nothing else is sent
   * @param before how often it went out before, in words, "" for never
   */
  public record Message(
      String kind,
      String heading,
      String due,
      String to,
      boolean hasAddress,
      String subject,
      String body,
      List<String> missing,
      String hint,
      String seen,
      String before) {}

  /**
   * What went out.
   *
   * @param what message, way and time
   * @param to the address, "" when it was copied
   * @param subject its subject
   * @param body its text
   */
  public record Sent(String what, String to, String subject, String body) {}
}

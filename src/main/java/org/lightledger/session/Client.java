package org.lightledger.session;

import org.jspecify.annotations.Nullable;

/**
 * Somebody who is photographed. A minor is reached through a guardian, and is called by the first
 * name alone in all that leaves the ledger.
 *
 * @param id the ledger's number of the client, 0 before it has one
 * @param name the full name; it stays in the ledger
 * @param calledName how the client is addressed: a first name
 * @param minor whether the client is under age where the studio works
 * @param contact how the client is reached
 * @param guardian who answers for a minor; null for nobody
 * @param homeAddress where the client lives, "" when not known; it never leaves the ledger
 * @param notes the owner's own words, "" for none; they never leave the ledger
 */
public record Client(
    long id,
    String name,
    String calledName,
    boolean minor,
    Contact contact,
    @Nullable Guardian guardian,
    String homeAddress,
    String notes) {

  /** Checks the names, and that a minor has a guardian who can be reached. */
  public Client {
    Texts.line("the client's name", name);
    Texts.line("the name the client is called by", calledName);
    if (minor && (guardian == null || guardian.contact().isEmpty())) {
      throw new IllegalArgumentException(
          "expected a guardian with an e-mail address or a telephone number for a minor, found"
              + " none; enter who answers for "
              + calledName);
    }
  }

  /**
   * Who answers for a minor.
   *
   * @param name the full name
   * @param contact how the guardian is reached
   */
  public record Guardian(String name, Contact contact) {
    /** Checks the name. */
    public Guardian {
      Texts.line("the guardian's name", name);
    }
  }

  /**
   * To whom messages about a session go.
   *
   * @return the guardian of a minor, else the client
   */
  public Contact writesTo() {
    return minor && guardian != null ? guardian.contact() : contact;
  }

  /**
   * How a letter opens: the guardian's name for a minor, else the name the client is called by.
   *
   * @return a name
   */
  public String addressee() {
    return minor && guardian != null ? guardian.name() : calledName;
  }
}

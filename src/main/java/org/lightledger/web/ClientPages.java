package org.lightledger.web;

import java.util.List;

/** What the pages of clients show. */
public final class ClientPages {
  private ClientPages() {}

  /**
   * All clients.
   *
   * @param rows by name
   */
  public record All(List<Row> rows) {}

  /**
   * A client in the list.
   *
   * @param href the client's page
   * @param name the full name
   * @param words how the client is called and reached
   * @param sessions how many sessions
   */
  public record Row(String href, String name, String words, String sessions) {}

  /**
   * One client, or a new one.
   *
   * @param id the ledger's number, 0 for a new one
   * @param form what the form holds
   * @param sessions the client's sessions
   * @param problems what was wrong
   * @param saved whether it has just been kept
   */
  public record One(
      long id,
      Form form,
      List<SessionsPage.Row> sessions,
      List<FieldProblem> problems,
      boolean saved) {
    /**
     * Where the form goes.
     *
     * @return an address
     */
    public String action() {
      return id == 0 ? "/clients" : "/clients/" + id;
    }
  }

  /**
   * What is known of a client, as typed.
   *
   * @param name the full name
   * @param called how the client is addressed
   * @param minor whether the client is under age
   * @param email address
   * @param phone number
   * @param guardian who answers for a minor
   * @param guardianEmail the guardian's address
   * @param guardianPhone the guardian's number
   * @param home where the client lives
   * @param notes the owner's own words
   */
  public record Form(
      String name,
      String called,
      boolean minor,
      String email,
      String phone,
      String guardian,
      String guardianEmail,
      String guardianPhone,
      String home,
      String notes) {}
}

package org.lightledger.store;

import java.sql.SQLException;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;
import org.lightledger.session.Contact;

/** Who is photographed. */
public final class ClientStore {
  private static final String CLIENT =
      "SELECT id, name, called_name, minor, email, phone, guardian_name, guardian_email,"
          + " guardian_phone, home_address, notes FROM clients ";

  private final LedgerSession session;

  ClientStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Adds a client.
   *
   * @param client the client; its number does not count
   * @return the ledger's number of the client
   */
  public long add(Client client) {
    session.changing(LedgerSession.Content.CLIENTS);
    return filled(
            session.call(
                "INSERT INTO clients (name, called_name, minor, email, phone, guardian_name,"
                    + " guardian_email, guardian_phone, home_address, notes)"
                    + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id"),
            client)
        .number();
  }

  /**
   * Replaces what is known of a client.
   *
   * @param client the client with its number
   * @throws LedgerException when there is no such client
   */
  public void update(Client client) {
    session.changing(LedgerSession.Content.CLIENTS);
    int changed =
        filled(
                session.call(
                    "UPDATE clients SET (name, called_name, minor, email, phone, guardian_name,"
                        + " guardian_email, guardian_phone, home_address, notes)"
                        + " = (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) WHERE id = ?"),
                client)
            .integer(client.id())
            .run();
    if (changed == 0) {
      throw LedgerException.notFound("client", client.id());
    }
  }

  private static Call filled(Call call, Client client) {
    Client.Guardian guardian = client.guardian();
    return call.text(client.name())
        .text(client.calledName())
        .flag(client.minor())
        .text(client.contact().email())
        .text(client.contact().phone())
        .text(guardian == null ? null : guardian.name())
        .text(guardian == null ? null : guardian.contact().email())
        .text(guardian == null ? null : guardian.contact().phone())
        .text(client.homeAddress())
        .text(client.notes());
  }

  /**
   * Finds a client.
   *
   * @param id the ledger's number of the client
   * @return the client, or nothing when there is none
   */
  public Optional<Client> find(long id) {
    return session.call(CLIENT + "WHERE id = ?").integer(id).first(ClientStore::read);
  }

  /**
   * Every client.
   *
   * @return by name
   */
  public List<Client> all() {
    return session.call(CLIENT + "ORDER BY name COLLATE NOCASE, id").list(ClientStore::read);
  }

  private static Client read(Row row) throws SQLException {
    long id = row.integer();
    try {
      return new Client(
          id,
          row.text(),
          row.text(),
          row.flag(),
          new Contact(row.textOrNull(), row.textOrNull()),
          guardian(row.textOrNull(), row.textOrNull(), row.textOrNull()),
          row.text(),
          row.text());
    } catch (IllegalArgumentException e) {
      throw LedgerException.foreign("client " + id, e);
    }
  }

  private static Client.@Nullable Guardian guardian(
      @Nullable String name, @Nullable String email, @Nullable String phone) {
    return name == null ? null : new Client.Guardian(name, new Contact(email, phone));
  }
}

package org.lightledger.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Client;

/** All that is held about a client, to hand over or to erase. */
public final class ClientRecords {
  private static final String OF_CLIENT = "SELECT * FROM sessions WHERE client_id = ?1";
  private static final String SESSIONS = "(SELECT id FROM sessions WHERE client_id = ?1)";
  private static final String SHARES =
      "(SELECT id FROM shares WHERE client_id = ?1 OR session_id IN " + SESSIONS + ")";

  /** Each table that holds something about a client, and how its rows are found. */
  private static final Map<String, String> TABLES = tables();

  /** Secrets open doors and say nothing about anybody; pictures are handed over as files. */
  private static final Set<String> LEFT_OUT = Set.of("token", "token_sha256", "secret", "jpeg");

  /**
   * Where else a name may stand: the table with its columns of words, and after a point the column
   * that says where, if that is not the row's own number.
   */
  private static final Map<String, String> ELSEWHERE = elsewhere();

  private final LedgerSession session;

  ClientRecords(LedgerSession session) {
    this.session = session;
  }

  private static Map<String, String> tables() {
    Map<String, String> tables = new LinkedHashMap<>();
    tables.put("clients", "SELECT * FROM clients WHERE id = ?1");
    tables.put("sessions", OF_CLIENT + " ORDER BY date, id");
    for (String table :
        List.of(
            "session_candidates",
            "plans",
            "answers",
            "sent_messages",
            "session_items",
            "calendar_entries")) {
      tables.put(table, "SELECT * FROM " + table + " WHERE session_id IN " + SESSIONS);
    }
    tables.put(
        "plan_stops",
        "SELECT * FROM plan_stops WHERE plan_id IN (SELECT id FROM plans WHERE session_id IN "
            + SESSIONS
            + ")");
    tables.put(
        "plan_changes",
        "SELECT * FROM plan_changes WHERE stop_id IN (SELECT id FROM plan_stops WHERE plan_id IN"
            + " (SELECT id FROM plans WHERE session_id IN "
            + SESSIONS
            + "))");
    tables.put("shares", "SELECT * FROM shares WHERE id IN " + SHARES);
    tables.put("share_picks", "SELECT * FROM share_picks WHERE share_id IN " + SHARES);
    tables.put("outfit_pictures", "SELECT * FROM outfit_pictures WHERE share_id IN " + SHARES);
    return tables;
  }

  private static Map<String, String> elsewhere() {
    Map<String, String> places = new LinkedHashMap<>();
    places.put("title or message of shortlist", "shortlists: title, message");
    places.put("words on shortlist", "shortlist_entries: words");
    places.put("words of spot", "spots: name, area, notes, cautions");
    places.put("words of deleted spot", "dropped_spots: name, area, notes, cautions");
    places.put("former words of spot", "corrected_spots.spot_id: name, area, notes, cautions");
    places.put("words about client", "clients: name, guardian_name, home_address, notes");
    places.put(
        "words of session", "sessions: wishes, pictures, talking_points, goal, outcome, notes");
    places.put("pack list of session", "session_items.session_id: words");
    places.put("answers in session", "answers.session_id: asked, words");
    places.put("messages of session", "sent_messages.session_id: recipient, subject, body");
    places.put("calendar entry of session", "calendar_entries.session_id: title");
    places.put("meeting place of session", "plans.session_id: meeting_words");
    places.put("message of share", "shares: message, reply_words");
    places.put("words on spots in share", "share_picks.share_id: words");
    places.put("question to clients", "client_questions: words");
    places.put("thing to pack", "gear: words");
    places.put("package", "packages: name");
    places.put("question to the ledger", "questions: name");
    places.put("name of obstruction", "obstructions: name");
    places.put("words of a template", "templates: subject, body");
    places.put("setting", "settings: value");
    places.put("path of file", "files: path");
    return places;
  }

  /**
   * The tables whose rows belong to clients.
   *
   * @return their names
   */
  static Set<String> tableNames() {
    return TABLES.keySet();
  }

  /**
   * Everything that is held about a client, table by table. Times are in UTC; numbers carry their
   * units in their names.
   *
   * @param clientId the ledger's number of the client
   * @return rows by table, empty tables too
   */
  public Map<String, List<Map<String, @Nullable Object>>> all(long clientId) {
    Map<String, List<Map<String, @Nullable Object>>> records = new LinkedHashMap<>();
    TABLES.forEach(
        (table, sql) -> {
          List<Map<String, @Nullable Object>> rows =
              session.call(sql).integer(clientId).list(row -> readable(row.all()));
          if (table.equals("outfit_pictures")) {
            rows.forEach(row -> row.put("file", pictureName(row.get("id"))));
          }
          records.put(table, rows);
        });
    return records;
  }

  /**
   * The pictures that a client sent.
   *
   * @param clientId the ledger's number of the client
   * @return JPEGs by the name of their file
   */
  public Map<String, byte[]> pictures(long clientId) {
    Map<String, byte[]> pictures = new LinkedHashMap<>();
    session
        .call("SELECT id, jpeg FROM outfit_pictures WHERE share_id IN " + SHARES + " ORDER BY id")
        .integer(clientId)
        .each(row -> pictures.put(pictureName(row.integer()), row.blob()));
    return pictures;
  }

  private static String pictureName(@Nullable Object id) {
    return "outfits/" + id + ".jpg";
  }

  private static Map<String, @Nullable Object> readable(Map<String, @Nullable Object> row) {
    Map<String, @Nullable Object> readable = new LinkedHashMap<>();
    row.forEach(
        (column, value) -> {
          if (LEFT_OUT.contains(column)) {
            return;
          }
          if (column.endsWith("_ms")) {
            String name = column.equals("at_ms") ? "at" : column.replaceFirst("_ms$", "_at");
            readable.put(
                name,
                value instanceof Number millis
                    ? Instant.ofEpochMilli(millis.longValue()).toString()
                    : null);
          } else {
            readable.put(column, value);
          }
        });
    return readable;
  }

  /**
   * Where else the name of a client or of the guardian stands: words that the owner or another
   * client wrote, and paths of files. They are theirs, and no erasure touches them.
   *
   * @param client the client
   * @return for example "words of spot 4", in the order of tables
   */
  public List<String> namedElsewhere(Client client) {
    List<String> names = new ArrayList<>(List.of(client.name()));
    Client.Guardian guardian = client.guardian();
    if (guardian != null) {
      names.add(guardian.name());
    }
    Set<String> found = new LinkedHashSet<>();
    ELSEWHERE.forEach(
        (label, where) -> {
          String place = where.substring(0, where.indexOf(':'));
          String table = place.replaceFirst("\\..*", "");
          String number = place.equals(table) ? "id" : place.substring(table.length() + 1);
          String texts =
              where
                  .substring(where.indexOf(':') + 2)
                  .replace(", ", ", '') || char(10) || coalesce(");
          String sql =
              "SELECT " + number + ", coalesce(" + texts + ", '') FROM " + table + ours(table);
          Call call = session.call(sql);
          if (!ours(table).isEmpty()) {
            call.integer(client.id());
          }
          call.each(
              row -> {
                long id = row.integer();
                String text = row.text().toLowerCase(Locale.ROOT);
                if (names.stream().anyMatch(name -> text.contains(name.toLowerCase(Locale.ROOT)))) {
                  found.add(label + " " + id);
                }
              });
        });
    return List.copyOf(found);
  }

  /** What goes with the client is not elsewhere. */
  private static String ours(String table) {
    return switch (table) {
      case "clients" -> " WHERE id <> ?1";
      case "sessions" -> " WHERE client_id <> ?1";
      case "shares" -> " WHERE id NOT IN " + SHARES;
      case "share_picks" -> " WHERE share_id NOT IN " + SHARES;
      case "session_items", "answers", "sent_messages", "calendar_entries", "plans" ->
          " WHERE session_id NOT IN " + SESSIONS;
      default -> "";
    };
  }

  /**
   * Erases a client with all that belongs to it: sessions with their plans, answers, messages and
   * things to pack; shares with what came back through them, pictures too. Shots stay, as evidence
   * of light: they name nobody. The bytes are gone from the file after {@link Ledger#scrub}.
   *
   * @param clientId the ledger's number of the client
   * @throws LedgerException when there is no such client
   */
  public void erase(long clientId) {
    session.changing(LedgerSession.Content.CLIENTS);
    session.sessionRecords().touch();
    session.call("DELETE FROM sessions WHERE client_id = ?").integer(clientId).run();
    if (session.call("DELETE FROM clients WHERE id = ?").integer(clientId).run() == 0) {
      throw LedgerException.notFound("client", clientId);
    }
  }
}

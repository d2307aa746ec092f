package org.lightledger.store;

import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** The owner's settings: names and values, both text. */
public final class SettingStore {
  private final LedgerSession session;

  SettingStore(LedgerSession session) {
    this.session = session;
  }

  /**
   * Finds a setting.
   *
   * @param name its name
   * @return its value, or nothing when it was never set
   */
  public Optional<String> find(String name) {
    return session.call("SELECT value FROM settings WHERE name = ?").text(name).first(Row::text);
  }

  /**
   * Sets a setting.
   *
   * @param name its name, not blank
   * @param value its value
   * @throws LedgerException when the name is blank
   */
  public void set(String name, String value) {
    session.changing(LedgerSession.Content.SETTINGS);
    session
        .call(
            "INSERT INTO settings (name, value) VALUES (?, ?)"
                + " ON CONFLICT (name) DO UPDATE SET value = excluded.value")
        .text(name)
        .text(value)
        .run();
  }

  /**
   * Forgets a setting, so that its default holds again.
   *
   * @param name its name
   */
  public void remove(String name) {
    session.changing(LedgerSession.Content.SETTINGS);
    session.call("DELETE FROM settings WHERE name = ?").text(name).run();
  }

  /**
   * Every setting.
   *
   * @return names and values, by name
   */
  public Map<String, String> all() {
    Map<String, String> settings = new TreeMap<>();
    session
        .call("SELECT name, value FROM settings")
        .each(row -> settings.put(row.text(), row.text()));
    return settings;
  }
}

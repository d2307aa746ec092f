package org.lightledger.web;

import java.util.List;
import java.util.Map;
import org.lightledger.session.outgoing.Field;

/**
 * The owner's wording of messages, and how they go out.
 *
 * @param values what stands in the fields, by the fields' names
 * @param securities the ways to a mail server
 * @param passwordKept whether the ledger holds a password
 * @param passwordOutside whether the environment holds one, which goes first
 * @param passwordVariable the name of that variable
 * @param templates the wordings
 * @param fields what a template can ask for
 * @param problems what was wrong with a form
 * @param saved whether a form has just been saved
 */
public record MessageSettingsPage(
    Map<String, String> values,
    List<Choice> securities,
    boolean passwordKept,
    boolean passwordOutside,
    String passwordVariable,
    List<Wording> templates,
    List<Field> fields,
    List<FieldProblem> problems,
    boolean saved) {

  /** A way to choose. */
  public record Choice(String code, String label, boolean picked) {}

  /** The wording of a message. */
  public record Wording(String kind, String heading, String subject, String body, boolean own) {}

  /**
   * What stands in a field.
   *
   * @param field its name
   * @return the value, "" for nothing
   */
  public String value(String field) {
    return values.getOrDefault(field, "");
  }
}

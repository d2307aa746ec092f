package org.lightledger.web;

import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * The fields by which shots are corrected, as they were sent when something was wrong.
 *
 * @param prefix what the names of its fields begin with, so that a page can hold several
 * @param sent the fields' texts, by name without the prefix
 * @param open the fix that is unfolded
 * @param offsets the offsets to choose from where a time is ambiguous
 * @param shots the shots whose true time can be given
 */
public record FixForm(
    String prefix,
    Map<String, String> sent,
    String open,
    List<Choice> offsets,
    List<Reading> shots) {

  /** Keeps own copies. */
  public FixForm {
    sent = Map.copyOf(sent);
    offsets = List.copyOf(offsets);
    shots = List.copyOf(shots);
  }

  /**
   * Something to choose.
   *
   * @param value what is sent
   * @param label what is shown
   */
  public record Choice(String value, String label) {}

  /**
   * A shot whose true time can be given.
   *
   * @param id the ledger's number
   * @param reading what the camera's clock said, as a field of a day and a time holds it
   * @param label what is shown
   */
  public record Reading(String id, String reading, String label) {}

  /**
   * What was sent in a field.
   *
   * @param name the field's name without the prefix
   * @return its text, "" for nothing
   */
  public String value(String name) {
    return sent.getOrDefault(name, "");
  }

  /**
   * Whether something was sent in one of several fields.
   *
   * @param names their names without the prefix
   * @return true when it was
   */
  public boolean sentAny(String... names) {
    return Stream.of(names).anyMatch(name -> !value(name).isEmpty());
  }

  /**
   * The full name of a field.
   *
   * @param name its name without the prefix
   * @return the name in the form
   */
  public String name(String name) {
    return prefix + "-" + name;
  }

  /**
   * Whether a fix is unfolded.
   *
   * @param fix its code
   * @return true when it is
   */
  public boolean opens(String fix) {
    return open.equals(fix);
  }

  /**
   * Whether a choice was sent.
   *
   * @param name the field's name without the prefix
   * @param choice the choice
   * @return true when it was
   */
  public boolean picked(String name, Choice choice) {
    return value(name).equals(choice.value());
  }
}

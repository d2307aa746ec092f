package org.lightledger.web;

import java.util.List;
import java.util.Map;

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
    List<Choice> shots) {

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
   * What was sent in a field.
   *
   * @param name the field's name without the prefix
   * @return its text, "" for nothing
   */
  public String value(String name) {
    return sent.getOrDefault(name, "");
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

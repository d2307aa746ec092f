package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A form that was sent in vain, whose words are shown again.
 *
 * @param part which form of the page, "" for none
 * @param fields what it said
 */
record Sent(String part, @Nullable Fields fields) {
  static final Sent NOTHING = new Sent("", null);

  List<FieldProblem> problems() {
    return fields == null ? List.of() : fields.problems();
  }

  boolean is(String form) {
    return fields != null && part.equals(form);
  }

  /** What a field of a form says: as it was typed, else as it is kept. */
  String text(String form, String field, String kept) {
    return fields != null && part.equals(form) ? fields.raw(field) : kept;
  }

  /** Whether a box of a form is ticked: as it was sent, else as it is kept. */
  boolean ticked(String form, String field, String value, boolean kept) {
    return fields != null && part.equals(form) ? fields.all(field).contains(value) : kept;
  }
}

package org.lightledger.web;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.share.Said;
import org.lightledger.share.Ticks;

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

  /** The words of a field, with what it showed; nothing when the form was not sent. */
  Said said(String form, String field) {
    return fields != null && part.equals(form) ? fields.typed(field) : Said.nothing();
  }

  /** The boxes of a form that were changed; none when the form was not sent. */
  Ticks<String> ticks(String form, String field) {
    return fields != null && part.equals(form)
        ? new Ticks<>(
            new HashSet<>(fields.all(Fields.SHOWN + field)), new HashSet<>(fields.all(field)))
        : new Ticks<>(Set.of(), Set.of());
  }

  /** Whether a box of a form is ticked: as it was sent, else as it is kept. */
  boolean ticked(String form, String field, String value, boolean kept) {
    return fields != null && part.equals(form) ? fields.all(field).contains(value) : kept;
  }
}

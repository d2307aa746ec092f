package org.lightledger.session.outgoing;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.MessageKind;

/**
 * The owner's wording of a message. Fields stand in double braces, such as {{meeting time}};
 * everything else is taken as it is.
 *
 * @param kind what it is for
 * @param subject the subject, one line
 * @param body the text
 */
public record Template(MessageKind kind, String subject, String body) {
  private static final String OPEN = "{{";
  private static final String CLOSE = "}}";
  private static final int MOST_SUBJECT = 150;
  private static final int MOST_BODY = 20_000;

  /**
   * Checks lengths and fields.
   *
   * @throws IllegalArgumentException naming what was found and the fields there are
   */
  public Template {
    subject = subject.strip();
    body = body.replace("\r\n", "\n").strip();
    within("subject", subject, MOST_SUBJECT);
    within("text", body, MOST_BODY);
    if (subject.chars().anyMatch(Character::isISOControl)) {
      throw new IllegalArgumentException(
          "expected a subject on one line, found a line break or another control character");
    }
    parts("subject", subject);
    parts("text", body);
  }

  /** A piece of text, or a field in its place. */
  private record Part(String text, @Nullable Field field) {}

  /**
   * The fields that it asks for.
   *
   * @return the fields of subject and text
   */
  public Set<Field> fields() {
    Set<Field> fields = EnumSet.noneOf(Field.class);
    List<Part> parts = new ArrayList<>(parts("subject", subject));
    parts.addAll(parts("text", body));
    for (Part part : parts) {
      if (part.field() != null) {
        fields.add(part.field());
      }
    }
    return fields;
  }

  /** What stands in the place of a field. */
  @FunctionalInterface
  interface Values {
    /** The value, at the start of a line or within one. */
    String of(Field field, boolean atStart);
  }

  /** The subject with values in place of fields. */
  String subject(Values values) {
    return fill(parts("subject", subject), values);
  }

  /** The text with values in place of fields. */
  String body(Values values) {
    return fill(parts("text", body), values);
  }

  /** A value is not looked through for fields again. */
  private static String fill(List<Part> parts, Values values) {
    StringBuilder filled = new StringBuilder();
    for (Part part : parts) {
      Field field = part.field();
      boolean atStart = filled.length() == 0 || filled.charAt(filled.length() - 1) == '\n';
      filled.append(field == null ? part.text() : values.of(field, atStart));
    }
    return filled.toString();
  }

  private static List<Part> parts(String where, String text) {
    List<Part> parts = new ArrayList<>();
    int from = 0;
    while (from < text.length()) {
      int open = text.indexOf(OPEN, from);
      if (open < 0) {
        parts.add(new Part(text.substring(from), null));
        break;
      }
      int close = text.indexOf(CLOSE, open);
      int again = text.indexOf(OPEN, open + OPEN.length());
      if (close < 0 || (again >= 0 && again < close)) {
        throw new IllegalArgumentException(
            "expected }} after {{ in the "
                + where
                + ", found none in \""
                + shortened(text.substring(open))
                + "\"");
      }
      parts.add(new Part(text.substring(from, open), null));
      parts.add(new Part("", field(where, text.substring(open + OPEN.length(), close))));
      from = close + CLOSE.length();
    }
    return parts;
  }

  private static Field field(String where, String word) {
    return Field.find(word)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "expected one of the fields "
                        + Field.list()
                        + "; found {{"
                        + shortened(word)
                        + "}} in the "
                        + where));
  }

  private static String shortened(String text) {
    return text.length() > 40 ? text.substring(0, 40) + "…" : text;
  }

  private static void within(String what, String text, int most) {
    if (text.isEmpty() || text.length() > most) {
      throw new IllegalArgumentException(
          "expected a " + what + " of 1 to " + most + " characters, found " + text.length());
    }
  }
}

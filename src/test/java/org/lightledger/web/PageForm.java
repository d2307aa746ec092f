package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** A form of a page as a browser sends it: with what it showed, and what somebody changed since. */
final class PageForm {
  private static final Pattern FIELD =
      Pattern.compile("<input([^>]*)>|<textarea([^>]*)>([^<]*)</textarea>");

  private record Field(String name, String value, boolean box, boolean ticked) {}

  private final List<Field> fields;

  private PageForm(List<Field> fields) {
    this.fields = fields;
  }

  /** The form of a page that goes to an address. */
  static PageForm of(String page, String action) {
    Matcher form =
        Pattern.compile(
                "<form[^>]* action=\"" + Pattern.quote(action) + "\"[^>]*>(.*?)</form>",
                Pattern.DOTALL)
            .matcher(page);
    if (!form.find()) {
      throw new AssertionError("the page has no form that goes to " + action);
    }
    List<Field> fields = new ArrayList<>();
    Matcher field = FIELD.matcher(form.group(1));
    while (field.find()) {
      String input = field.group(1);
      if (input == null) {
        fields.add(
            new Field(attribute(field.group(2), "name"), plain(field.group(3)), false, true));
      } else {
        boolean box = attribute(input, "type").equals("checkbox");
        boolean ticked = !box || input.matches("(?s).*\\schecked(\\s.*|=.*|/?)");
        fields.add(new Field(attribute(input, "name"), attribute(input, "value"), box, ticked));
      }
    }
    return new PageForm(fields);
  }

  private static String attribute(String tag, String name) {
    Matcher matcher = Pattern.compile("\\s" + name + "=\"([^\"]*)\"").matcher(tag);
    return matcher.find() ? plain(matcher.group(1)) : "";
  }

  private static String plain(String text) {
    return text.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&#34;", "\"")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
  }

  /** The form with other words in a field. */
  PageForm type(String name, String words) {
    return changed(name, null, new Field(name, words, false, true));
  }

  /** The form with a box ticked or not. */
  PageForm tick(String name, String value, boolean ticked) {
    return changed(name, value, new Field(name, value, true, ticked));
  }

  private PageForm changed(String name, String value, Field field) {
    List<Field> changed = new ArrayList<>();
    boolean found = false;
    for (Field one : fields) {
      boolean is = one.name().equals(name) && (value == null || one.value().equals(value));
      found |= is;
      changed.add(is ? field : one);
    }
    if (!found) {
      throw new AssertionError("the form has no field " + name);
    }
    return new PageForm(changed);
  }

  /** What a field shows. */
  String words(String name) {
    return fields.stream()
        .filter(field -> field.name().equals(name))
        .findFirst()
        .orElseThrow(() -> new AssertionError("the form has no field " + name))
        .value();
  }

  /** Whether a box has a tick. */
  boolean ticked(String name, String value) {
    return fields.stream()
        .anyMatch(
            field -> field.ticked() && field.name().equals(name) && field.value().equals(value));
  }

  /** Names and values in turn, line breaks as browsers send them. */
  String[] sent() {
    return fields.stream()
        .filter(Field::ticked)
        .flatMap(field -> List.of(field.name(), field.value().replace("\n", "\r\n")).stream())
        .toArray(String[]::new);
  }
}

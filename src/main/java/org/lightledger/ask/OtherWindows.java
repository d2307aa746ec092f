package org.lightledger.ask;

import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.lightledger.light.LightClass;

/** Says in which other windows a spot has a wanted light. */
public final class OtherWindows {
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private OtherWindows() {}

  /**
   * The other windows in words.
   *
   * @param others the windows
   * @param shown the light of the window that is shown beside them; only others are named
   * @return for example "also 15:33 to 15:42", "" for none
   */
  public static String text(List<Answer.Other> others, LightClass shown) {
    if (others.isEmpty()) {
      return "";
    }
    String windows =
        others.stream().map(other -> text(other, shown)).collect(Collectors.joining(", "));
    return others.size() == 1
        ? "also " + windows
        : "also in " + others.size() + " other windows: " + windows;
  }

  private static String text(Answer.Other other, LightClass shown) {
    return (other.light() == shown ? "" : other.light().label() + " ")
        + HOUR.format(other.window().from())
        + " to "
        + HOUR.format(other.window().to());
  }
}

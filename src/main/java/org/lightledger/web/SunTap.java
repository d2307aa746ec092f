package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.skyline.SunOnSubject;

/**
 * The owner's word on whether the sun was on the subject of a shot.
 *
 * @param shotId the shot
 * @param choices what can be said
 */
public record SunTap(long shotId, List<Choice> choices) {

  /** Something that can be said, and whether it is. */
  public record Choice(String code, String word, boolean said) {}

  static SunTap of(long shotId, @Nullable SunOnSubject said) {
    return new SunTap(
        shotId,
        List.of(
            new Choice("yes", "yes", said == SunOnSubject.YES),
            new Choice("no", "no, shade", said == SunOnSubject.NO),
            new Choice("dappled", "dappled", said == SunOnSubject.DAPPLED),
            new Choice("unsaid", "not said", said == null)));
  }

  /** Reads what was said; null takes the word back. */
  static @Nullable SunOnSubject read(String code) {
    return switch (code) {
      case "yes" -> SunOnSubject.YES;
      case "no" -> SunOnSubject.NO;
      case "dappled" -> SunOnSubject.DAPPLED;
      case "unsaid" -> null;
      default ->
          throw PageProblem.badFields(
              List.of(
                  new FieldProblem(
                      "word",
                      "Sun on the subject",
                      "expected yes, no, dappled or unsaid, found " + Fields.found(code))));
    };
  }
}

package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.ExpectedExposure;
import org.lightledger.light.SkyCondition;
import org.lightledger.light.SunSuggestion;
import org.lightledger.shot.Shot;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;

/**
 * The owner's word on whether the sun was on the subject of a shot.
 *
 * @param shotId the shot
 * @param choices what can be said
 * @param suggestion what its exposure suggests, or null when sun, direction or exposure is not
 *     known
 */
public record SunTap(long shotId, List<Choice> choices, @Nullable Suggestion suggestion) {

  /**
   * What the shot's exposure suggests; the owner's word decides, so nothing is chosen by it.
   *
   * @param verdict "direct sun", "shade" or "can't tell"
   * @param reason why, with its numbers
   */
  public record Suggestion(String verdict, String reason) {}

  /** Something that can be said, and whether it is. */
  public record Choice(String code, String word, boolean said) {}

  static SunTap of(StoredShot stored, @Nullable SunOnSubject said) {
    return new SunTap(
        stored.id(),
        List.of(
            new Choice("yes", "yes", said == SunOnSubject.YES),
            new Choice("no", "no, shade", said == SunOnSubject.NO),
            new Choice("dappled", "dappled", said == SunOnSubject.DAPPLED),
            new Choice("unsaid", "not said", said == null)),
        suggestion(stored));
  }

  private static @Nullable Suggestion suggestion(StoredShot stored) {
    SunDirection sun = stored.sun();
    Shot.Facing facing = stored.shot().facing();
    Double ev100 = stored.shot().evidence().exposure().ev100();
    if (sun == null || facing == null || ev100 == null) {
      return null;
    }
    SunSuggestion suggested =
        ExpectedExposure.of(sun, facing.bearing(), SkyCondition.CLEAR).suggest(ev100);
    return new Suggestion(suggested.verdict().label(), suggested.reason());
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

package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Taps;
import org.lightledger.shot.view.Pixel;

/** Reads what was tapped in a picture, in pixels of the picture as it is looked at. */
final class TapFields {
  /** No picture that is read is longer; own choice, as for previews. */
  private static final double MOST_PX = 30_000;

  private TapFields() {}

  /** What was tapped, or null when a field was bad. */
  static @Nullable Taps read(Fields fields) {
    String kind = fields.raw("tap");
    return switch (kind) {
      case "sun" -> {
        Pixel disc = pixel(fields, "at", "Sun", true);
        yield disc == null ? null : new Taps.Sun(disc);
      }
      case "own" -> {
        Pixel head = pixel(fields, "at", "Shadow of your head", true);
        yield head == null ? null : new Taps.OwnShadow(head);
      }
      case "shadow" -> shadow(fields);
      default -> {
        fields.problem(
            "tap", "What to tap", "expected the sun or a shadow, found " + Fields.found(kind));
        yield null;
      }
    };
  }

  private static @Nullable Taps shadow(Fields fields) {
    int before = fields.problems().size();
    Pixel foot = pixel(fields, "foot", "Foot", true);
    Pixel tip = pixel(fields, "tip", "Tip of the shadow", true);
    Pixel horizon = pixel(fields, "horizon", "Horizon", false);
    return foot == null || tip == null || fields.problems().size() > before
        ? null
        : new Taps.Shadow(foot, tip, horizon);
  }

  private static @Nullable Pixel pixel(Fields fields, String name, String label, boolean required) {
    List<Double> pair = new ArrayList<>();
    boolean none = fields.raw(name + "x").isEmpty() && fields.raw(name + "y").isEmpty();
    if (none && !required) {
      return null;
    }
    for (String axis : List.of("x", "y")) {
      String field = name + axis;
      if (fields.raw(field).isEmpty()) {
        fields.problem(
            field,
            label + " " + axis,
            "expected a tap in the picture or its pixels, found nothing");
      } else {
        Double value = fields.number(field, label + " " + axis, -MOST_PX, MOST_PX, " pixels");
        if (value != null) {
          pair.add(value);
        }
      }
    }
    return pair.size() == 2 ? new Pixel(pair.get(0), pair.get(1)) : null;
  }
}

package org.lightledger.map.picture;

import java.awt.geom.Area;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Where words stand already. Words lie wholly on the drawn map and never on each other. */
final class LabelSpace {
  private final Area drawn;
  private final List<Rectangle2D> taken = new ArrayList<>();

  LabelSpace(Area drawn) {
    this.drawn = drawn;
  }

  boolean isFree(List<Rectangle2D> boxes) {
    for (Rectangle2D box : boxes) {
      if (!drawn.contains(box)) {
        return false;
      }
      for (Rectangle2D other : taken) {
        if (other.intersects(box)) {
          return false;
        }
      }
    }
    return true;
  }

  void take(List<Rectangle2D> boxes) {
    taken.addAll(boxes);
  }
}

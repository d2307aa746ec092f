package org.lightledger.map.picture;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Where words stand already. Words lie wholly inside the picture and never on each other. */
final class LabelSpace {
  private final Rectangle2D picture;
  private final List<Rectangle2D> taken = new ArrayList<>();

  LabelSpace(int widthPx, int heightPx) {
    picture = new Rectangle2D.Double(0, 0, widthPx, heightPx);
  }

  boolean isFree(List<Rectangle2D> boxes) {
    for (Rectangle2D box : boxes) {
      if (!picture.contains(box)) {
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

package org.lightledger.correction;

import org.jspecify.annotations.Nullable;
import org.lightledger.shot.view.Pixel;

/** What was tapped in a picture to tell which way it looks. */
public sealed interface Taps {

  /**
   * The sun.
   *
   * @param disc the middle of its disc
   */
  record Sun(Pixel disc) implements Taps {}

  /**
   * The shadow of the camera itself.
   *
   * @param head the shadow of the camera, usually that of the photographer's head
   */
  record OwnShadow(Pixel head) implements Taps {}

  /**
   * The shadow of something upright on level ground.
   *
   * @param foot where it stands on the ground
   * @param tip where the shadow of its top is
   * @param horizon any place on the horizon, or null where none is seen
   */
  record Shadow(Pixel foot, Pixel tip, @Nullable Pixel horizon) implements Taps {}
}

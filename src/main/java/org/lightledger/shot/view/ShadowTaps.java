package org.lightledger.shot.view;

import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.view.SightingErrors.Solution;

/** What was tapped of a shadow, as rays. */
record ShadowTaps(Ray foot, Ray tip, @Nullable Ray horizon) {

  ShadowTaps withFoot(Ray other) {
    return new ShadowTaps(other, tip, horizon);
  }

  ShadowTaps withTip(Ray other) {
    return new ShadowTaps(foot, other, horizon);
  }

  ShadowTaps withHorizon(Ray other) {
    return new ShadowTaps(foot, tip, other);
  }

  ShadowTaps each(UnaryOperator<Ray> change) {
    return new ShadowTaps(
        change.apply(foot), change.apply(tip), horizon == null ? null : change.apply(horizon));
  }

  /** The turn from the sun to the facing; null when a tap does not meet the ground. */
  @Nullable Solution solve(double assumedPitchDeg) {
    double pitch = horizon == null ? Math.toRadians(assumedPitchDeg) : -Math.atan(horizon.up());
    double footDepth = -foot.rise(pitch);
    double tipDepth = -tip.rise(pitch);
    if (!(footDepth > 0 && tipDepth > 0)) {
      return null;
    }
    double right = tip.right() / tipDepth - foot.right() / footDepth;
    double forward = tip.forward(pitch) / tipDepth - foot.forward(pitch) / footDepth;
    if (right == 0 && forward == 0) {
      return null;
    }
    return new Solution(180 - Math.toDegrees(Math.atan2(right, forward)), Math.toDegrees(pitch));
  }
}

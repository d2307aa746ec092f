package org.lightledger.architecture.seeded.session.planner;

import org.jspecify.annotations.Nullable;
import org.lightledger.architecture.seeded.session.drive.roads.Streets;

/** Knows the roads themselves, which the planner may not. */
public final class PlansOverRoads {
  private final @Nullable Streets streets = null;

  @Override
  public String toString() {
    return String.valueOf(streets);
  }
}

package org.lightledger.session.planner;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.light.LightClass;

/** The light of a stretch of time at a candidate, along one facing. */
final class StayLight {
  private final SessionFrame frame;
  private final SpotSunlight light;
  private final SpotSunlight.AlongFacing along;
  private final int fromMin;
  private final int untilMin;

  /**
   * A stretch of the frame, in minutes of it.
   *
   * @param frame the frame
   * @param light the spot's light
   * @param facing the index of the facing
   * @param fromMin first minute
   * @param untilMin the minute after the last
   */
  StayLight(SessionFrame frame, SpotSunlight light, int facing, int fromMin, int untilMin) {
    this.frame = frame;
    this.light = light;
    this.along = light.alongFacings().get(facing);
    this.fromMin = fromMin;
    this.untilMin = untilMin;
  }

  /** The light from beginning to end, as far as it is told. */
  List<LightStretch> stretches() {
    List<LightStretch> stretches = new ArrayList<>();
    int start = fromMin;
    for (int minute = fromMin + 1; minute <= untilMin; minute++) {
      LightClass before = classAt(minute - 1);
      if (minute == untilMin || classAt(minute) != before) {
        if (before != null) {
          stretches.add(new LightStretch(frame.at(start), frame.at(minute), before));
        }
        start = minute;
      }
    }
    return stretches;
  }

  /** The weakest evidence. */
  Answer.Tier tier() {
    Answer.Tier weakest = Answer.Tier.SCOUTED;
    for (int minute = fromMin; minute < untilMin; minute++) {
      SpotSunlight.Minute told = at(minute);
      Answer.Tier tier = told == null ? Answer.Tier.GEOMETRY : told.tier();
      weakest = tier.compareTo(weakest) > 0 ? tier : weakest;
    }
    return weakest;
  }

  /** When the sun, that shone before within the stretch, leaves for the rest of it. */
  Optional<Instant> directEnds() {
    int last = -1;
    for (int minute = fromMin; minute < untilMin; minute++) {
      Boolean direct = directAt(minute);
      if (direct == null) {
        return Optional.empty();
      }
      last = direct ? minute : last;
    }
    return last < 0 || last == untilMin - 1 ? Optional.empty() : Optional.of(frame.at(last + 1));
  }

  /** Minutes with the sun up of which it is not known whether it reaches the spot. */
  int directNotKnownMin() {
    int count = 0;
    for (int minute = fromMin; minute < untilMin; minute++) {
      count += directAt(minute) == null ? 1 : 0;
    }
    return count;
  }

  /** Minutes in a light that is wanted, other than those of a stretch within. */
  int wantedMin(LightWeights weights, int exceptFromMin, int exceptUntilMin) {
    int count = 0;
    for (int minute = fromMin; minute < untilMin; minute++) {
      LightClass there = classAt(minute);
      boolean busy = minute >= exceptFromMin && minute < exceptUntilMin;
      count += there != null && !busy && weights.wants(there) ? 1 : 0;
    }
    return count;
  }

  /**
   * Until when the wanted light lasts that the stretch has last, also beyond its end.
   *
   * @return a minute of the frame; nothing when it has none, or it lasts to the end of the frame
   */
  OptionalInt wantedUntilMin(LightWeights weights) {
    int last = untilMin - 1;
    while (last >= fromMin && !isWanted(last, weights)) {
      last--;
    }
    if (last < fromMin) {
      return OptionalInt.empty();
    }
    int end = last + 1;
    while (end < frame.spanMin() && isWanted(end, weights)) {
      end++;
    }
    return end < frame.spanMin() ? OptionalInt.of(end) : OptionalInt.empty();
  }

  /** Whether the light of the last minute is wanted. */
  boolean endsWanted(LightWeights weights) {
    return isWanted(untilMin - 1, weights);
  }

  private boolean isWanted(int minute, LightWeights weights) {
    LightClass there = classAt(minute);
    return there != null && weights.wants(there);
  }

  /** The light that lasts longest; null when none is told. */
  @Nullable LightClass mostly() {
    int[] minutes = new int[LightClass.values().length];
    for (int minute = fromMin; minute < untilMin; minute++) {
      LightClass there = classAt(minute);
      if (there != null) {
        minutes[there.ordinal()]++;
      }
    }
    LightClass most = null;
    for (LightClass light : LightClass.values()) {
      if (minutes[light.ordinal()] > (most == null ? 0 : minutes[most.ordinal()])) {
        most = light;
      }
    }
    return most;
  }

  private @Nullable LightClass classAt(int minute) {
    SpotSunlight.Minute told = at(minute);
    return told == null ? null : told.light();
  }

  private SpotSunlight.@Nullable Minute at(int minute) {
    int told = light.minuteOf(frame.at(minute));
    return told >= 0 && told < light.minutes() ? along.minutes().get(told) : null;
  }

  private @Nullable Boolean directAt(int minute) {
    int told = light.minuteOf(frame.at(minute));
    return told >= 0 && told < light.minutes() ? light.direct().get(told) : null;
  }
}

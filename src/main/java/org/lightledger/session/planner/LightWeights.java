package org.lightledger.session.planner;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.lightledger.ask.Sky;
import org.lightledger.light.LightClass;

/**
 * How much a minute of each light is worth to a stop.
 *
 * @param byClass the worth of a minute, [0, 1]; a class that is absent is worth nothing
 */
public record LightWeights(Map<LightClass, Double> byClass) {

  /** A light counts as wanted from this weight on. Own choice: half of the best. */
  public static final double WANTED_FROM = 0.5;

  /** How much less each next light of an ordered wish is worth. Own choice. */
  private static final double STEP_DOWN = 0.2;

  /** The least that a light of an ordered wish is worth. Own choice. */
  private static final double LEAST_NAMED = 0.5;

  /**
   * What a minute of each light is worth when nothing else is wished for: portraits outdoors prefer
   * the sun behind the subject, then beside it, then even shade. Common practice, no source.
   */
  public static final LightWeights USUAL =
      new LightWeights(
          Map.of(
              LightClass.BACKLIT, 1.0,
              LightClass.RIM, 0.9,
              LightClass.SIDE, 0.7,
              LightClass.OPEN_SHADE, 0.7,
              LightClass.THREE_QUARTER_FRONT, 0.5,
              LightClass.TWILIGHT, 0.5,
              LightClass.FRONT, 0.3,
              LightClass.OVERHEAD, 0.1));

  /**
   * Checks the weights and keeps its own copy.
   *
   * @throws IllegalArgumentException when one is outside of [0, 1] or not a number
   */
  public LightWeights {
    byClass.forEach(
        (light, weight) -> {
          if (!(weight >= 0 && weight <= 1)) {
            throw new IllegalArgumentException(
                "expected a weight in [0, 1] for " + light.label() + ", found " + weight);
          }
        });
    byClass = Map.copyOf(byClass);
  }

  /**
   * The weights of a wish in order: 1 for the first light, then {@value #STEP_DOWN} less for each
   * next one, at least {@value #LEAST_NAMED}; what is not named is worth nothing.
   *
   * @param bestFirst the wanted lights, at least one
   * @return the weights
   * @throws IllegalArgumentException when no light is named
   */
  public static LightWeights ordered(List<LightClass> bestFirst) {
    if (bestFirst.isEmpty()) {
      throw new IllegalArgumentException("expected at least one wanted light, found none");
    }
    Map<LightClass, Double> weights = new EnumMap<>(LightClass.class);
    for (int i = 0; i < bestFirst.size(); i++) {
      weights.putIfAbsent(bestFirst.get(i), Math.max(LEAST_NAMED, 1 - STEP_DOWN * i));
    }
    return new LightWeights(weights);
  }

  /**
   * The weights under a sky. Clouds leave no light of a direction: where nothing is wished for that
   * there is under them, even light does, as usual.
   *
   * @param sky what the sky is like
   * @return these weights, or the usual ones
   */
  public LightWeights under(Sky sky) {
    boolean none =
        Stream.of(LightClass.OPEN_SHADE, LightClass.TWILIGHT, LightClass.DARK)
            .noneMatch(this::wants);
    return sky == Sky.OVERCAST && none ? USUAL : this;
  }

  /**
   * The worth of a minute.
   *
   * @param light the light
   * @return [0, 1]
   */
  public double of(LightClass light) {
    return byClass.getOrDefault(light, 0.0);
  }

  /**
   * Whether a light is wanted.
   *
   * @param light the light
   * @return true from {@value #WANTED_FROM} on
   */
  public boolean wants(LightClass light) {
    return of(light) >= WANTED_FROM;
  }
}

package org.lightledger.ask;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;

/**
 * A question about light.
 *
 * @param lights which light is wanted, at least one class
 * @param firstDay first local date
 * @param lastDay last local date, at most {@value #MOST_DAYS} days in all
 * @param time which hour
 * @param near where, or null for the whole stock
 * @param terms what else is asked for
 */
public record Question(
    Set<LightClass> lights,
    LocalDate firstDay,
    LocalDate lastDay,
    TimeOfDay time,
    @Nullable Near near,
    Terms terms) {

  /** The longest range of a question, days. */
  public static final int MOST_DAYS = 366;

  /**
   * Checks the question.
   *
   * @throws IllegalArgumentException naming what was found and what was expected
   */
  public Question {
    if (lights.isEmpty()) {
      throw new IllegalArgumentException("expected at least one light class, found none");
    }
    lights = Set.copyOf(EnumSet.copyOf(lights));
    if (lastDay.isBefore(firstDay)) {
      throw new IllegalArgumentException(
          "expected a date range that ends on or after its start, found "
              + firstDay
              + ".."
              + lastDay);
    }
    long days = ChronoUnit.DAYS.between(firstDay, lastDay) + 1;
    if (days > MOST_DAYS) {
      throw new IllegalArgumentException(
          "expected at most " + MOST_DAYS + " days, found " + days + "; ask for a shorter range");
    }
  }

  /**
   * A question without terms.
   *
   * @param lights which light is wanted, at least one class
   * @param firstDay first local date
   * @param lastDay last local date
   * @param time which hour
   * @param near where, or null for the whole stock
   */
  public Question(
      Set<LightClass> lights,
      LocalDate firstDay,
      LocalDate lastDay,
      TimeOfDay time,
      @Nullable Near near) {
    this(lights, firstDay, lastDay, time, near, Terms.NONE);
  }

  /**
   * A circle on the ground.
   *
   * @param centre its middle
   * @param radiusM its radius, metres, greater than 0
   */
  public record Near(GeoPoint centre, double radiusM) {
    /**
     * Checks the radius.
     *
     * @throws IllegalArgumentException when it is not a positive finite number
     */
    public Near {
      if (!(radiusM > 0 && radiusM < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("expected a radius above 0 metres, found " + radiusM);
      }
    }
  }
}

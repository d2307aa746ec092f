package org.lightledger.correction;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What the owner says about a set of shots, in one go. What is null stays as it is.
 *
 * @param time when they were taken
 * @param place where
 * @param facing which way they look
 */
public record Correction(
    @Nullable TimeWord time, @Nullable PlaceWord place, @Nullable FacingWord facing) {

  /**
   * Checks the correction.
   *
   * @throws IllegalArgumentException when it says nothing
   */
  public Correction {
    if (time == null && place == null && facing == null) {
      throw new IllegalArgumentException("expected a time, a place or a facing, found nothing");
    }
  }

  /**
   * A correction of the time alone.
   *
   * @param time what is said about it
   * @return the correction
   */
  public static Correction of(TimeWord time) {
    return new Correction(time, null, null);
  }

  /**
   * A correction of the place alone.
   *
   * @param place what is said about it
   * @return the correction
   */
  public static Correction of(PlaceWord place) {
    return new Correction(null, place, null);
  }

  /**
   * A correction of the facing alone.
   *
   * @param facing what is said about it
   * @return the correction
   */
  public static Correction of(FacingWord facing) {
    return new Correction(null, null, facing);
  }

  /**
   * What it is, for the list of corrections.
   *
   * @return a few words
   */
  public String words() {
    List<String> parts = new ArrayList<>();
    if (time != null) {
      parts.add(time.words());
    }
    if (place != null) {
      parts.add(place.words());
    }
    if (facing != null) {
      parts.add(facing.words());
    }
    String all = String.join(", ", parts);
    return Character.toUpperCase(all.charAt(0)) + all.substring(1);
  }
}

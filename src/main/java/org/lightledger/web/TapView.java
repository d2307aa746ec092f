package org.lightledger.web;

import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What was tapped in a picture, and which way it looks by that.
 *
 * @param shot the shot
 * @param kind what is tapped: "sun", "own" or "shadow"
 * @param at the pixels tapped, by the names of their fields
 * @param found the facing in words, "" when there is none
 * @param error how far off it can be, in words
 * @param pitch how far the camera looked up or down, in words
 * @param wedge the facing and half of the field of view for the map, "" when there is none
 * @param lat latitude for the map, "" when not known
 * @param lon longitude
 * @param refused why no facing follows, or null
 */
public record TapView(
    long shot,
    String kind,
    Map<String, String> at,
    String found,
    String error,
    String pitch,
    String wedge,
    String lat,
    String lon,
    @Nullable String refused) {

  /** Keeps an own copy of the pixels. */
  public TapView {
    at = Map.copyOf(at);
  }

  /**
   * The pixel in a field.
   *
   * @param field the field's name
   * @return its text, "" for nothing
   */
  public String px(String field) {
    return at.getOrDefault(field, "");
  }
}

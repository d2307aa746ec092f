package org.lightledger.share;

import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongFunction;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;

/**
 * Turns a shortlist into what its client may see. It copies what is allowed, field by field, so
 * that a field added to a spot later stays private until somebody lists it here.
 */
public final class Redaction {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM yyyy", Locale.ENGLISH);
  private static final DateTimeFormatter HOUR = DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT);

  private Redaction() {}

  /**
   * The client's view.
   *
   * @param shortlist the owner's shortlist
   * @param spots finds a spot by its number; an entry whose spot is gone is left out
   * @param hazards what is dangerous or forbidden at a spot
   * @param exactPositions whether the owner lets the client see where the spots lie
   * @return the view
   */
  public static SharedShortlist view(
      Shortlist shortlist,
      LongFunction<Optional<Spot>> spots,
      LongFunction<Set<Hazard>> hazards,
      boolean exactPositions) {
    List<SharedShortlist.SharedSpot> shared =
        shortlist.entries().stream()
            .flatMap(
                entry ->
                    spots.apply(entry.spotId()).stream()
                        .map(spot -> view(entry, spot, hazards.apply(spot.id()), exactPositions)))
            .toList();
    return new SharedShortlist(shortlist.title(), shortlist.message(), shared);
  }

  private static SharedShortlist.SharedSpot view(
      Shortlist.Entry entry, Spot spot, Set<Hazard> hazards, boolean exactPositions) {
    Shortlist.Moment moment = entry.moment();
    return new SharedShortlist.SharedSpot(
        spot.name(),
        entry.words(),
        moment == null ? null : hour(moment.from(), moment.to()),
        moment == null ? null : plainWords(moment.light()),
        hazards.stream().sorted().map(Hazard::clientWords).toList(),
        spot.cautions(),
        entry.coverShotId(),
        positionIfAllowed(spot, exactPositions));
  }

  private static @Nullable GeoPoint positionIfAllowed(Spot spot, boolean exactPositions) {
    return exactPositions ? spot.position() : null;
  }

  private static String hour(OffsetDateTime from, OffsetDateTime to) {
    return DAY.format(from) + ", from " + HOUR.format(from) + " to " + HOUR.format(to);
  }

  /**
   * A light class in words for somebody who does not photograph.
   *
   * @param light the class
   * @return one sentence
   */
  static String plainWords(LightClass light) {
    return switch (light) {
      case BACKLIT -> "The sun is behind you: soft light on the face, a bright edge on the hair.";
      case RIM -> "The sun comes from behind and to one side: one edge of you is lit brightly.";
      case SIDE -> "The sun comes from one side: a light side and a shaded side.";
      case THREE_QUARTER_FRONT ->
          "The sun comes from the front and to one side: clear, bright light.";
      case FRONT -> "The sun is behind the camera: bright and even.";
      case OVERHEAD -> "The sun is high.";
      case OPEN_SHADE -> "Open shade: soft, even light without direct sun.";
      case TWILIGHT -> "The sun is below the horizon: soft light from the evening or morning sky.";
      case DARK -> "After dark.";
    };
  }
}

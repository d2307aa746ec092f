package org.lightledger.web;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.spot.Spot;

/**
 * The way from planned moments to their rehearsal in one outing.
 *
 * @param href the page of the outing
 * @param words what it does
 */
public record ScoutingLink(String href, String words) {
  private static final DateTimeFormatter LOCAL =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm", Locale.ROOT);

  /** A planned moment at a spot. */
  record Moment(Spot spot, Instant at) {}

  /** The link for the moments that are still to come; null for fewer than a least number. */
  static @Nullable ScoutingLink of(List<Moment> moments, Instant now, int least) {
    List<String> coming =
        moments.stream()
            .filter(moment -> moment.at().isAfter(now))
            .sorted(Comparator.comparing(Moment::at))
            .map(moment -> stop(moment.spot().id(), moment.at(), SpotSky.zone(moment.spot())))
            .distinct()
            .toList();
    if (coming.size() < least) {
      return null;
    }
    return new ScoutingLink(
        coming.stream()
            .limit(ScoutingRun.MOST_SPOTS)
            .map(stop -> "stop=" + stop)
            .collect(Collectors.joining("&", ScoutingRunRoutes.PATH + "?", "")),
        coming.size() > ScoutingRun.MOST_SPOTS
            ? "Rehearse the first " + ScoutingRun.MOST_SPOTS + " in one outing"
            : coming.size() == 1 ? "Rehearse it in an outing" : "Rehearse these in one outing");
  }

  /** A stop as it stands in the address: on the clock of the spot, as the page reads it. */
  static String stop(long spotId, Instant at, ZoneId zone) {
    return spotId + "@" + LOCAL.format(at.atZone(zone));
  }
}

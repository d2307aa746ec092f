package org.lightledger.shot;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.CaptureTime.Source;
import org.lightledger.shot.zone.ZonesAtPlace;

/**
 * Concludes the capture time of one shot. The evidence is asked in this order; the first that
 * answers is used, and what contradicts it is reported.
 *
 * <ol>
 *   <li>The offset tag. Only when GPS time and the zone of the place agree with each other against
 *       it, GPS time is used instead: two independent witnesses, one of them a satellite's clock,
 *       outweigh a setting in a camera's menu (real files carry offsets that forgot summer time).
 *   <li>GPS date and time, which give the offset: local time less GPS time, rounded to the quarter
 *       hour. It counts when some zone on earth has had that offset and the remainder is small. A
 *       difference of nothing where no zone of the place is at UTC has two explanations, a camera
 *       set to UTC, or one that writes its local time into the GPS fields; both are found in real
 *       files, and the time is ambiguous.
 *   <li>The zone of the place; in the repeated hour, and where several zones hold, a GPS time of
 *       day without its date can still choose between the candidates.
 *   <li>The zone that the owner gives.
 * </ol>
 *
 * <p>The instant is always the camera clock's reading less the offset, never the GPS time itself,
 * so long as there is a reading: the GPS time is that of the last fix and can be minutes old, the
 * reading is that of the shutter, and shots of one camera keep their order and distances whether or
 * not each of them has a fix. The known time's local reading is therefore the file's own, after the
 * {@link ClockCorrection} that the owner may have given: the rules see the corrected reading.
 */
final class TimeRules {
  /** A deviation that the owner should know: a quarter of a degree of the sun's way. */
  private static final Duration NOTABLE_DRIFT = Duration.ofMinutes(1);

  private final Evidence evidence;
  private final GpsWitness gpsTime;
  private final @Nullable ZonesAtPlace zones;
  private final @Nullable ZoneId ownerZone;
  private final List<Problem> problems;

  TimeRules(
      Evidence evidence,
      @Nullable ZonesAtPlace zones,
      @Nullable ZoneId ownerZone,
      List<Problem> problems) {
    this.evidence = evidence;
    this.gpsTime = new GpsWitness(evidence);
    this.zones = zones;
    this.ownerZone = ownerZone;
    this.problems = problems;
  }

  CaptureTime conclude() {
    LocalDateTime local = evidence.localTime();
    CaptureTime time = local == null ? withoutReading() : withReading(local);
    if (time instanceof CaptureTime.Unknown unknown) {
      problems.add(new Problem(Problem.Kind.TIME_MISSING, unknown.reason()));
    } else if (time instanceof CaptureTime.Ambiguous ambiguous) {
      problems.add(new Problem(Problem.Kind.TIME_AMBIGUOUS, ambiguous.reason()));
    }
    return time;
  }

  private CaptureTime withoutReading() {
    Instant gps = evidence.gpsInstant();
    if (gps == null) {
      return new CaptureTime.Unknown(null, "The file holds no capture time; give it by hand.");
    }
    Set<ZoneOffset> offsets =
        placeZones().stream()
            .map(zone -> zone.getRules().getOffset(gps))
            .collect(Collectors.toSet());
    return new CaptureTime.Known(
        gps, offsets.size() == 1 ? offsets.iterator().next() : ZoneOffset.UTC, Source.GPS_TIME);
  }

  private CaptureTime withReading(LocalDateTime local) {
    Map<Instant, OffsetDateTime> byPlace = candidates(local, placeZones());
    Set<ZoneOffset> placeOffsets =
        byPlace.values().stream().map(OffsetDateTime::getOffset).collect(Collectors.toSet());
    ZoneOffset tag = evidence.offset();
    ZoneOffset gps = gpsTime.offset(local);
    boolean gpsFitsPlace = gps != null && placeOffsets.contains(gps);
    if (tag != null) {
      if (gps != null && gpsFitsPlace && !tag.equals(gps) && !placeOffsets.contains(tag)) {
        contradict(
            "The file's offset %s is not used: GPS time and the time zone of the place both say %s.",
            tag, gps);
        return checked(known(local, gps, Source.GPS_TIME));
      }
      if (!placeZones().isEmpty() && !placeOffsets.contains(tag)) {
        contradict(
            "The file's offset %s is used, but the time zone of the place (%s) %s.",
            tag,
            names(placeZones()),
            placeOffsets.isEmpty() ? "skips that local time" : "has " + list(placeOffsets));
      }
      return checked(known(local, tag, Source.OFFSET_TAG));
    }
    if (gps != null) {
      if (gps.equals(ZoneOffset.UTC) && !placeOffsets.isEmpty() && !gpsFitsPlace) {
        Map<Instant, OffsetDateTime> all = new TreeMap<>(byPlace);
        OffsetDateTime atUtc = local.atOffset(ZoneOffset.UTC);
        all.put(atUtc.toInstant(), atUtc);
        return new CaptureTime.Ambiguous(
            local,
            List.copyOf(all.values()),
            "GPS time equals the camera clock although the place ("
                + names(placeZones())
                + ") is not at UTC: either the clock was set to UTC, or the camera wrote its local"
                + " time as GPS time; choose which.");
      }
      if (!placeOffsets.isEmpty() && !gpsFitsPlace) {
        contradict(
            "The camera clock was at %s by GPS time, which is used, but the time zone of the place"
                + " (%s) has %s.",
            gps, names(placeZones()), list(placeOffsets));
      }
      return checked(known(local, gps, Source.GPS_TIME));
    }
    return checked(byZone(local, byPlace));
  }

  private CaptureTime byZone(LocalDateTime local, Map<Instant, OffsetDateTime> byPlace) {
    ZonesAtPlace place = zones;
    if (place != null && place.unknownNames().isEmpty() && !place.zones().isEmpty()) {
      return choose(local, place.zones(), byPlace, Source.PLACE_ZONE);
    }
    if (ownerZone != null) {
      List<ZoneId> owner = List.of(ownerZone);
      return choose(local, owner, candidates(local, owner), Source.OWNER);
    }
    String reason;
    if (place == null) {
      reason =
          "The file has a local time, but neither an offset nor GPS time nor a place that would tell"
              + " its zone; give the zone.";
    } else if (place.unknownNames().isEmpty()) {
      reason = "No time zone is known at the place of the shot; give the zone.";
    } else {
      reason =
          "The place lies in the time zone "
              + String.join(" or ", place.unknownNames())
              + ", whose rules this Java does not know; update Java or give a zone.";
    }
    return new CaptureTime.Unknown(local, reason);
  }

  private CaptureTime choose(
      LocalDateTime local,
      List<ZoneId> of,
      Map<Instant, OffsetDateTime> candidates,
      Source source) {
    if (candidates.isEmpty()) {
      return new CaptureTime.Unknown(
          local,
          "The clocks of "
              + names(of)
              + " skipped the local time "
              + local
              + " when they were changed; the camera clock was set wrong.");
    }
    Map<Instant, OffsetDateTime> doubted = gpsTime.withTimeOfDay(local, candidates);
    if (source == Source.PLACE_ZONE && doubted.size() > candidates.size()) {
      return new CaptureTime.Ambiguous(
          local,
          List.copyOf(doubted.values()),
          "The GPS time of day, which has no date beside it, contradicts the time zone of the place ("
              + names(of)
              + "): the camera clock was set to another zone, or the GPS time is wrong; choose"
              + " which.");
    }
    if (candidates.size() == 1) {
      OffsetDateTime only = candidates.values().iterator().next();
      return known(local, only.getOffset(), source);
    }
    List<OffsetDateTime> likeGps = candidates.values().stream().filter(gpsTime::isNear).toList();
    if (likeGps.size() == 1) {
      return known(local, likeGps.get(0).getOffset(), Source.GPS_TIME);
    }
    return new CaptureTime.Ambiguous(
        local,
        List.copyOf(candidates.values()),
        of.size() == 1
            ? "The clocks of "
                + names(of)
                + " showed the local time "
                + local
                + " twice; choose which."
            : "The place lies at a border between the time zones "
                + names(of)
                + ", which give different times; choose which.");
  }

  /** Reports when the file's GPS time is far from the instant concluded. */
  private CaptureTime checked(CaptureTime time) {
    if (!(time instanceof CaptureTime.Known known)) {
      return time;
    }
    Duration ahead = gpsTime.ahead(known.instant());
    if (ahead != null && ahead.abs().compareTo(NOTABLE_DRIFT) > 0) {
      boolean drift = ahead.abs().compareTo(GpsWitness.GREATEST_DRIFT) <= 0;
      contradict(
          drift
              ? "The camera clock runs %s %s GPS time; the clock is used."
              : "The time concluded is %s %s the file's GPS time, which is not used: it may be"
                  + " that of an old fix, or the camera clock is wrong.",
          inWords(ahead.abs()),
          ahead.isNegative() ? "behind" : "ahead of");
    }
    return time;
  }

  private static String inWords(Duration duration) {
    if (duration.compareTo(GpsWitness.GREATEST_DRIFT) <= 0) {
      return duration.toSeconds() + " s";
    }
    Duration rounded = duration.plusSeconds(30);
    return duration.compareTo(Duration.ofDays(2)) < 0
        ? rounded.toHours() + " h " + rounded.toMinutesPart() + " min"
        : duration.toDays() + " days";
  }

  private List<ZoneId> placeZones() {
    return zones == null ? List.of() : zones.zones();
  }

  private static Map<Instant, OffsetDateTime> candidates(LocalDateTime local, List<ZoneId> zones) {
    Map<Instant, OffsetDateTime> candidates = new TreeMap<>();
    for (ZoneId zone : zones) {
      for (ZoneOffset offset : zone.getRules().getValidOffsets(local)) {
        OffsetDateTime candidate = local.atOffset(offset);
        candidates.put(candidate.toInstant(), candidate);
      }
    }
    return candidates;
  }

  private static CaptureTime.Known known(LocalDateTime local, ZoneOffset offset, Source source) {
    return new CaptureTime.Known(local.toInstant(offset), offset, source);
  }

  private void contradict(String format, Object... values) {
    problems.add(
        new Problem(Problem.Kind.TIME_CONTRADICTED, String.format(Locale.ROOT, format, values)));
  }

  private static String names(Collection<ZoneId> zones) {
    return zones.stream().map(ZoneId::getId).collect(Collectors.joining(", "));
  }

  private static String list(Collection<ZoneOffset> offsets) {
    return offsets.stream().sorted().map(ZoneOffset::getId).collect(Collectors.joining(" or "));
  }
}

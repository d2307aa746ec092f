package org.lightledger.correction;

import java.time.DateTimeException;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.zone.ZoneLookup;

/**
 * What the owner's word on the time means for one shot. An earlier word on it stands until it is
 * replaced: a time that rests on the camera's clock moves with the clock's correction, a time given
 * by hand does not.
 */
final class TimeByWord {
  private static final String NO_READING =
      "The file holds no reading of the camera's clock; give the time by hand.";

  private final ZoneLookup zones;

  TimeByWord(ZoneLookup zones) {
    this.zones = zones;
  }

  /**
   * What to conclude with.
   *
   * @param clock how the camera's clock is put right
   * @param time the time by the owner's word, or null when the file and the rules tell it
   */
  record Told(ClockCorrection clock, CaptureTime.@Nullable Known time) {}

  /** What the owner said earlier. */
  static Told standing(Shot shot) {
    return new Told(shot.clockCorrection(), ownersTime(shot));
  }

  Told told(Shot shot, TimeWord word) throws RefusedException {
    if (word instanceof TimeWord.Clock clock) {
      return clock(shot, clock.correction());
    }
    if (word instanceof TimeWord.Zone zone) {
      return zone(shot, zone.zone());
    }
    if (word instanceof TimeWord.Choice choice) {
      return choice(shot, choice.offset());
    }
    if (word instanceof TimeWord.ByHand hand) {
      return byHand(shot, hand);
    }
    throw new IllegalArgumentException("expected the clock's correction itself, found " + word);
  }

  private static Told clock(Shot shot, ClockCorrection correction) throws RefusedException {
    LocalDateTime right = correction.apply(reading(shot));
    CaptureTime.Known owners = ownersTime(shot);
    if (owners == null) {
      return new Told(correction, null);
    }
    requireByClock(shot, owners);
    return new Told(correction, known(right, owners.offset()));
  }

  private static Told zone(Shot shot, ZoneId zone) throws RefusedException {
    LocalDateTime right = shot.clockCorrection().apply(reading(shot));
    if (shot.time() instanceof CaptureTime.Known known) {
      if (known.source() == CaptureTime.Source.OFFSET_TAG
          || known.source() == CaptureTime.Source.GPS_TIME) {
        throw new RefusedException(
            "The file itself tells its offset from UTC, so a zone changes nothing. If its time is"
                + " wrong, correct the clock or give the time by hand.");
      }
      if (known.source() == CaptureTime.Source.OWNER) {
        requireByClock(shot, known);
      }
    }
    return new Told(shot.clockCorrection(), known(right, only(right, List.of(zone))));
  }

  private static Told choice(Shot shot, ZoneOffset offset) throws RefusedException {
    if (!(shot.time() instanceof CaptureTime.Ambiguous ambiguous)) {
      throw new RefusedException("Its time is not ambiguous, so there is nothing to choose.");
    }
    for (OffsetDateTime candidate : ambiguous.candidates()) {
      if (candidate.getOffset().equals(offset)) {
        return new Told(
            shot.clockCorrection(),
            new CaptureTime.Known(candidate.toInstant(), offset, CaptureTime.Source.OWNER));
      }
    }
    throw new RefusedException(
        "UTC"
            + offset
            + " is none of the times that fit: "
            + ambiguous.candidates().stream()
                .map(candidate -> "UTC" + candidate.getOffset())
                .collect(Collectors.joining(", "))
            + ".");
  }

  private Told byHand(Shot shot, TimeWord.ByHand hand) throws RefusedException {
    ZoneId zone = hand.zone();
    Shot.Position position = shot.position();
    List<ZoneId> in;
    if (zone != null) {
      in = List.of(zone);
    } else if (position != null) {
      in = ShotRules.zonesAt(zones, position).zones();
    } else {
      in = List.of();
    }
    if (in.isEmpty()) {
      throw new RefusedException(
          "No place tells the zone of the time; give the zone or the offset with it.");
    }
    return new Told(shot.clockCorrection(), known(hand.local(), only(hand.local(), in)));
  }

  /** The offset that a local time has in every one of the zones. */
  private static ZoneOffset only(LocalDateTime local, List<ZoneId> in) throws RefusedException {
    String names = in.stream().map(ZoneId::getId).collect(Collectors.joining(" and "));
    List<ZoneOffset> offsets =
        in.stream()
            .flatMap(zone -> zone.getRules().getValidOffsets(local).stream())
            .distinct()
            .toList();
    if (offsets.isEmpty()) {
      throw new RefusedException(
          "The clocks of "
              + names
              + " skipped "
              + words(local)
              + " when they were changed; the time or the zone is wrong.");
    }
    if (offsets.size() > 1) {
      throw new RefusedException(
          words(local)
              + " is not one time only in "
              + names
              + "; give the offset in place of the zone: "
              + offsets.stream().map(ZoneOffset::getId).collect(Collectors.joining(" or "))
              + ".");
    }
    return offsets.get(0);
  }

  private static String words(LocalDateTime local) {
    return local.toString().replace('T', ' ');
  }

  private static LocalDateTime reading(Shot shot) throws RefusedException {
    LocalDateTime reading = shot.evidence().localTime();
    if (reading == null) {
      throw new RefusedException(NO_READING);
    }
    return reading;
  }

  private static void requireByClock(Shot shot, CaptureTime.Known owners) throws RefusedException {
    if (!owners.local().toLocalDateTime().equals(shot.clockCorrection().apply(reading(shot)))) {
      throw new RefusedException(
          "Its time was given by hand and does not rest on the camera's clock; give the time anew"
              + " if it is wrong.");
    }
  }

  private static CaptureTime.Known known(LocalDateTime local, ZoneOffset offset)
      throws RefusedException {
    try {
      return new CaptureTime.Known(local.toInstant(offset), offset, CaptureTime.Source.OWNER);
    } catch (DateTimeException e) {
      throw new RefusedException("That time lies beyond any calendar: " + words(local) + ".");
    }
  }

  private static CaptureTime.@Nullable Known ownersTime(Shot shot) {
    return shot.time() instanceof CaptureTime.Known known
            && known.source() == CaptureTime.Source.OWNER
        ? known
        : null;
  }
}

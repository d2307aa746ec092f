package org.lightledger.correction;

import java.time.Clock;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.JoinDistance;
import org.lightledger.indexing.SpotPlacing;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.Sighting;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.CorrectionStore;
import org.lightledger.store.GroupingStore;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredCorrection;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunEphemeris;

/**
 * Applies the owner's corrections to shots, one or many at once, and undoes them, newest first. A
 * correction is one transaction: the shots are concluded anew, linked to the sun, moved to their
 * spots, and the facings of those spots are learned again. A shot that can not be corrected so is
 * left as it is, with the reason.
 */
public final class Corrections {
  private final Ledger ledger;
  private final ZoneLookup zones;
  private final SunEphemeris sun;
  private final Clock clock;

  /**
   * Corrections of a ledger.
   *
   * @param ledger the ledger
   * @param zones knows the zones of places
   * @param sun knows where the sun is
   * @param clock tells when a correction is made
   */
  public Corrections(Ledger ledger, ZoneLookup zones, SunEphemeris sun, Clock clock) {
    this.ledger = ledger;
    this.zones = zones;
    this.sun = sun;
    this.clock = clock;
  }

  /**
   * Corrects shots.
   *
   * @param shotIds the ledger's numbers of the shots
   * @param correction what the owner says about them
   * @return what became of each
   */
  public Corrected apply(Collection<Long> shotIds, Correction correction) {
    return ledger.write(session -> apply(session, new TreeSet<>(shotIds), correction));
  }

  private Corrected apply(LedgerSession session, Collection<Long> shotIds, Correction correction) {
    Correction resolved;
    try {
      resolved = resolved(session, correction);
    } catch (RefusedException e) {
      return new Corrected(
          null,
          correction.words(),
          shotIds.stream()
              .map(id -> new Outcome(id, Outcome.Kind.UNCHANGED, List.of(e.reason())))
              .toList());
    }
    Conclusion conclusion = new Conclusion(session, zones, sun);
    Map<StoredShot, Conclusion.Now> changes = new LinkedHashMap<>();
    List<Outcome> outcomes = new ArrayList<>();
    for (long shotId : shotIds) {
      try {
        StoredShot stored =
            session
                .shots()
                .find(shotId)
                .orElseThrow(() -> new RefusedException("This shot is not in the ledger."));
        Conclusion.Now now = conclusion.of(stored, resolved);
        changes.put(stored, now);
        outcomes.add(outcome(shotId, now));
      } catch (RefusedException e) {
        outcomes.add(new Outcome(shotId, Outcome.Kind.UNCHANGED, List.of(e.reason())));
      }
    }
    Long id = changes.isEmpty() ? null : keep(session, resolved.words(), changes);
    return new Corrected(id, resolved.words(), outcomes);
  }

  /** The clock's correction that one shot gives is read from that shot as it stands. */
  private static Correction resolved(LedgerSession session, Correction correction)
      throws RefusedException {
    if (!(correction.time() instanceof TimeWord.ClockOf from)) {
      return correction;
    }
    LocalDateTime reading =
        session
            .shots()
            .find(from.shotId())
            .map(stored -> stored.shot().evidence().localTime())
            .orElseThrow(
                () ->
                    new RefusedException(
                        "The shot whose true time was given holds no reading of the camera's"
                            + " clock; choose another."));
    try {
      return new Correction(
          new TimeWord.Clock(ClockCorrection.between(reading, from.truth())),
          correction.place(),
          correction.facing());
    } catch (IllegalArgumentException e) {
      throw new RefusedException(
          "The time given lies more than a century from the camera's reading; check the year.");
    }
  }

  private static Outcome outcome(long shotId, Conclusion.Now now) {
    List<String> why = new ArrayList<>(now.notes());
    for (Problem problem : now.shot().problems()) {
      if (problem.kind().needsAttention()) {
        why.add(problem.message());
      }
    }
    return new Outcome(
        shotId, now.shot().needsAttention() ? Outcome.Kind.STILL_WAITING : Outcome.Kind.FIXED, why);
  }

  private long keep(LedgerSession session, String words, Map<StoredShot, Conclusion.Now> changes) {
    CorrectionStore kept = session.corrections();
    long id = kept.begin(clock.instant(), words);
    SpotPlacing placing = placing(session, new Keeper(kept, id));
    TreeSet<Long> left = new TreeSet<>();
    changes.forEach(
        (stored, now) -> {
          kept.keepShot(id, stored.id());
          Long spotId = stored.spotId();
          if (spotId != null) {
            kept.keepSpot(id, spotId);
            placing.touch(spotId);
            if (moves(session, stored, now) && !isByOwner(session, stored)) {
              session.shots().assign(stored.id(), null);
              left.add(spotId);
            }
          }
          session.shots().update(stored.id(), now.shot(), now.sun());
        });
    changes.forEach(
        (stored, now) -> {
          if (moves(session, stored, now)) {
            findSpot(session, placing, stored, now.shot());
          }
        });
    left.forEach(placing::removeIfNeedless);
    placing.learnFacings();
    kept.finish(id);
    return id;
  }

  /** The owner's grouping outlasts a corrected place. */
  private static void findSpot(
      LedgerSession session, SpotPlacing placing, StoredShot stored, Shot shot) {
    Shot.Position position = shot.position();
    Long spotId = stored.spotId();
    if (position == null) {
      return;
    }
    if (spotId != null && isByOwner(session, stored)) {
      placing.stays(stored.id(), spotId, position);
    } else {
      placing.place(stored.id(), position);
    }
  }

  private static boolean isByOwner(LedgerSession session, StoredShot stored) {
    return stored.spotId() != null
        && session
            .grouping()
            .source(stored.id())
            .filter(source -> source != GroupingStore.Source.PLACE)
            .isPresent();
  }

  /** Keeps each spot as it is before a shot joins it. */
  private record Keeper(CorrectionStore kept, long correctionId) implements SpotPlacing.Watcher {
    @Override
    public void joins(long spotId) {
      kept.keepSpot(correctionId, spotId);
    }

    @Override
    public void makes(long spotId) {
      kept.keepMade(correctionId, spotId);
    }
  }

  private SpotPlacing placing(LedgerSession session, SpotPlacing.Watcher watcher) {
    return new SpotPlacing(session, zones, JoinDistance.of(session), watcher);
  }

  private static boolean moves(LedgerSession session, StoredShot stored, Conclusion.Now now) {
    return !Objects.equals(point(stored.shot()), point(now.shot()))
        || session.grouping().isHomeless(stored.id());
  }

  private static @Nullable GeoPoint point(Shot shot) {
    Shot.Position position = shot.position();
    return position == null ? null : position.point();
  }

  /**
   * Undoes the newest correction: its shots and spots are as they were before.
   *
   * @param id its number
   * @return what was undone, or nothing when it is not the newest
   */
  public Optional<StoredCorrection> undo(long id) {
    return ledger.write(
        session -> {
          Optional<StoredCorrection> newest =
              session.corrections().newest(1).stream()
                  .filter(correction -> correction.id() == id)
                  .findFirst();
          if (newest.isPresent()) {
            lookAfter(session, session.corrections().restore(id));
          }
          return newest;
        });
  }

  private void lookAfter(LedgerSession session, CorrectionStore.Restored restored) {
    SpotPlacing placing = placing(session, SpotPlacing.Watcher.NONE);
    for (long shotId : restored.fuller()) {
      StoredShot stored = session.shots().find(shotId).orElseThrow();
      Conclusion.Now now = new Conclusion(session, zones, sun).again(stored);
      session.shots().update(shotId, now.shot(), now.sun());
    }
    Set<Long> placedAnew = new HashSet<>(restored.away());
    placedAnew.addAll(restored.fuller());
    for (long shotId : restored.shots()) {
      StoredShot stored = session.shots().find(shotId).orElseThrow();
      Shot.Position position = stored.shot().position();
      Long spotId = stored.spotId();
      if (position != null && session.grouping().isHomeless(shotId)) {
        spotId = placing.place(shotId, position);
      } else if (position != null
          && spotId != null
          && placedAnew.contains(shotId)
          && isByOwner(session, stored)) {
        placing.stays(shotId, spotId, position);
      }
      if (spotId != null && !restored.stayed().contains(spotId)) {
        session.grouping().settle(spotId);
        placing.touch(spotId);
      }
    }
    restored.stayed().forEach(placing::touch);
    restored.moved().forEach(session.grouping()::settle);
    restored.moved().forEach(placing::touch);
    for (long spotId : restored.made()) {
      if (!placing.removeIfNeedless(spotId)) {
        session.grouping().settle(spotId);
        placing.touch(spotId);
      }
    }
    placing.learnFacings();
  }

  /**
   * Which way a shot would look by what was tapped in its picture; changes nothing.
   *
   * @param stored the shot
   * @param taps what was tapped
   * @return the facing, or why it does not follow
   */
  public static Sighting sight(StoredShot stored, Taps taps) {
    return FacingByTaps.sight(stored.shot().evidence(), stored.sun(), taps);
  }
}

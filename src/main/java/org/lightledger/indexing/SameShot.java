package org.lightledger.indexing;

import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Problem.Kind;
import org.lightledger.shot.Shot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;

/**
 * Finds the shot that a new file is one more file of.
 *
 * <ul>
 *   <li>A pair: the names differ in the extension alone, in one folder, from one camera, and the
 *       clocks read the same within a second (the shot may be a burst, whose time is that of its
 *       first file). What the shot's file did not say is taken from the new one.
 *   <li>A burst: the file before it in its folder holds a shot of the same camera whose clock read
 *       at most a second less or more, and the files say the same, word for word, of everything but
 *       the time: place, direction, exposure, format. Nothing is lost by keeping them as one shot;
 *       bracketed exposures stay apart.
 * </ul>
 *
 * <p>Files without a time or a camera are never joined. Files come in the order of their names and
 * each sees what the ones before it did, as at {@link SpotPlacing}.
 */
final class SameShot {
  private static final Duration BURST = Duration.ofSeconds(1);

  private static final Set<Kind> ABOUT_TIME = EnumSet.of(Kind.TIME_MISSING, Kind.TIME_AMBIGUOUS);
  private static final Set<Kind> ABOUT_POSITION =
      EnumSet.of(Kind.POSITION_MISSING, Kind.POSITION_REFUSED);
  private static final Set<Kind> ABOUT_DIRECTION =
      EnumSet.of(Kind.DIRECTION_MISSING, Kind.DIRECTION_REFUSED);

  private final LedgerSession session;
  private final SpotPlacing placing;
  private final FileReading reading;

  SameShot(LedgerSession session, SpotPlacing placing, FileReading reading) {
    this.session = session;
    this.placing = placing;
    this.reading = reading;
  }

  /** The shot that the file belongs to, filled with what it says; nothing when it is a new one. */
  Optional<Long> join(Path file, Evidence evidence) {
    Path folder = file.getParent();
    LocalDateTime time = evidence.localTime();
    String camera = evidence.camera();
    if (folder == null || time == null || camera == null) {
      return Optional.empty();
    }
    String base = Sidecars.baseOf(String.valueOf(file.getFileName()));
    for (long id : session.files().shotsNamed(folder, base)) {
      Optional<StoredShot> shot = session.shots().find(id);
      if (shot.isPresent() && isPair(shot.get().shot().evidence(), evidence)) {
        fill(shot.get(), evidence);
        return Optional.of(id);
      }
    }
    return session
        .files()
        .shotBefore(file, camera, time.minus(BURST), time.plus(BURST))
        .filter(before -> folder.equals(before.path().getParent()))
        .flatMap(before -> session.shots().find(before.shotId()))
        .filter(shot -> isBurst(shot.shot().evidence(), evidence))
        .map(StoredShot::id);
  }

  static boolean isPair(Evidence shot, Evidence file) {
    return Objects.equals(shot.camera(), file.camera())
        && areNear(shot.localTime(), file.localTime());
  }

  static boolean isBurst(Evidence shot, Evidence file) {
    return areNear(shot.localTime(), file.localTime())
        && withoutTime(shot).equals(withoutTime(file));
  }

  private static boolean areNear(@Nullable LocalDateTime one, @Nullable LocalDateTime other) {
    return one != null && other != null && Duration.between(one, other).abs().compareTo(BURST) <= 0;
  }

  private static Evidence withoutTime(Evidence evidence) {
    return new Evidence(
        evidence.format(),
        null,
        evidence.offset(),
        null,
        null,
        evidence.position(),
        evidence.altitudeM(),
        evidence.positionErrorM(),
        evidence.direction(),
        evidence.exposure(),
        evidence.focalLength35mmMm(),
        evidence.orientation(),
        evidence.widthPx(),
        evidence.heightPx(),
        evidence.camera(),
        List.of());
  }

  private void fill(StoredShot stored, Evidence file) {
    Evidence filled = stored.shot().evidence().filledFrom(file);
    if (filled.equals(stored.shot().evidence())) {
      return;
    }
    placing.settle();
    Shot before = stored.shot();
    Shot shot = keepingWhatIsKnown(before, reading.concludeAgain(filled, before.clockCorrection()));
    session.shots().update(stored.id(), shot, reading.sunOf(shot));
    Long spotId = stored.spotId();
    if (spotId == null && shot.position() != null) {
      placing.place(stored.id(), shot.position());
    } else if (spotId != null) {
      placing.touch(spotId);
    }
  }

  /** What was concluded before stays, be it by the owner's word, and so do its problems. */
  private static Shot keepingWhatIsKnown(Shot before, Shot now) {
    boolean keepsTime = before.time() instanceof CaptureTime.Known;
    boolean keepsPosition = before.position() != null;
    boolean keepsFacing = before.facing() != null;
    List<Problem> problems = new ArrayList<>(now.problems());
    problems.removeIf(
        problem ->
            (keepsTime && ABOUT_TIME.contains(problem.kind()))
                || (keepsPosition && ABOUT_POSITION.contains(problem.kind()))
                || (keepsFacing && ABOUT_DIRECTION.contains(problem.kind())));
    return new Shot(
        now.evidence(),
        keepsTime ? before.time() : now.time(),
        keepsPosition ? before.position() : now.position(),
        keepsFacing ? before.facing() : now.facing(),
        problems,
        keepsTime ? before.clockCorrection() : now.clockCorrection());
  }
}

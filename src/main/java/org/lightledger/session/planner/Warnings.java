package org.lightledger.session.planner;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.lightledger.ask.Answer;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.DriveSource;

/** Collects what to mind about a plan, in words. */
final class Warnings {
  /** Waiting is told from so many minutes on. Own choice. */
  private static final int TOLD_WAIT_MIN = 10;

  /** A closing time is told when it comes within so many minutes. Own choice. */
  private static final int CLOSE_TO_CLOSING_MIN = 5;

  private final PlanRequest request;
  private final List<String> all = new ArrayList<>();

  Warnings(PlanRequest request) {
    this.request = request;
  }

  List<String> all() {
    return all;
  }

  void of(PlannedStop stop, StayLight light, PlanCandidate candidate) {
    ofDrive(stop);
    ofWaiting(stop);
    ofLight(stop, light);
    if (stop.basis() == Answer.FacingBasis.SUGGESTED) {
      all.add(
          "No facing is known at %s: look first whether the background is good towards the %s."
              .formatted(stop.name(), stop.facing().compassPoint()));
    }
    Duration close = Duration.ofMinutes(CLOSE_TO_CLOSING_MIN);
    for (OpenWindow window : candidate.open()) {
      if (!window.closes().isBefore(stop.shootUntil())
          && window.closes().isBefore(stop.shootUntil().plus(close))) {
        all.add(
            "%s closes at %s, and you shoot there until %s."
                .formatted(stop.name(), hour(window.closes()), hour(stop.shootUntil())));
      }
    }
  }

  void ofLength(Instant call, Instant end) {
    long unusedMin = request.frame().lengthMin() - Duration.between(call, end).toMinutes();
    if (unusedMin > request.frame().gridMin()) {
      all.add("The plan leaves %s of the session unused.".formatted(Words.minutes(unusedMin)));
    }
  }

  private void ofDrive(PlannedStop stop) {
    Drive drive = stop.drive();
    if (drive != null && drive.source() == DriveSource.ESTIMATED && drive.minutes() > 0) {
      all.add(
          "The drive to %s (%s) is an estimate: %s"
              .formatted(stop.name(), Words.minutes(drive.minutes()), drive.reason()));
    }
  }

  private void ofWaiting(PlannedStop stop) {
    OutfitChange change = stop.changeBefore();
    boolean here = change != null && change.spotId() == stop.spotId();
    Instant busyFrom = change != null && here ? change.from() : stop.shootFrom();
    Instant ready = stop.arrive().plus(Duration.ofMinutes(request.limits().handlingMin()));
    long waitMin = Duration.between(ready, busyFrom).toMinutes();
    if (waitMin >= TOLD_WAIT_MIN) {
      all.add("You wait %s at %s.".formatted(Words.minutes(waitMin), stop.name()));
    }
  }

  private void ofLight(PlannedStop stop, StayLight light) {
    Instant ends = stop.directEnds();
    if (ends != null) {
      all.add(
          "Direct light ends at %s at %s, %s before shooting there ends."
              .formatted(
                  stop.name(),
                  hour(ends),
                  Words.minutes(Duration.between(ends, stop.shootUntil()).toMinutes())));
    }
    int notKnownMin = light.directNotKnownMin();
    if (notKnownMin > 0) {
      all.add(
          "Whether the sun reaches %s is not known for %s of the stay: too little is known of its"
                  .formatted(stop.name(), Words.minutes(notKnownMin))
              + " skyline.");
    }
    if (stop.wantedMin() * 2 < stop.shootingMin()) {
      all.add(
          "%s of the %s at %s have a light that is wanted there."
              .formatted(
                  stop.wantedMin() == 0 ? "None" : "Only " + stop.wantedMin(),
                  Words.minutes(stop.shootingMin()),
                  stop.name()));
    }
  }

  private String hour(Instant instant) {
    return Words.hour(instant, request.frame().zone());
  }
}

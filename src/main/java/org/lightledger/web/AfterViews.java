package org.lightledger.web;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.ShotMatching;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;

/** Shows which shots of a session that has been belong to which stop. */
final class AfterViews {
  private AfterViews() {}

  static AfterPart part(LedgerSession session, Session booked, @Nullable KeptPlan plan) {
    if (plan == null) {
      return new AfterPart(
          List.of(),
          List.of(),
          "No plan was kept, so that shots can not be told apart by stop. Imported shots teach the"
              + " spots all the same.");
    }
    List<ShotMatching.Stop> stops = new ArrayList<>();
    List<Spot> spots = new ArrayList<>();
    for (KeptPlan.Stop stop : plan.stops()) {
      Spot spot = session.spots().find(stop.spotId()).orElseThrow();
      spots.add(spot);
      stops.add(new ShotMatching.Stop(spot.id(), spot.position(), stop.arrive(), stop.leave()));
    }
    Instant from = stops.get(0).arrive().minus(ShotMatching.LEEWAY);
    Instant until = stops.get(stops.size() - 1).leave().plus(ShotMatching.LEEWAY).plusMillis(1);
    List<ShotMatching.Taken> taken = new ArrayList<>();
    for (StoredShot stored : session.shots().takenBetween(from, until)) {
      Shot.Position position = stored.shot().position();
      if (stored.shot().time() instanceof CaptureTime.Known known) {
        taken.add(
            new ShotMatching.Taken(
                stored.id(),
                stored.spotId(),
                position == null ? null : position.point(),
                known.instant()));
      }
    }
    return part(booked, spots, ShotMatching.of(stops, taken));
  }

  private static AfterPart part(Session booked, List<Spot> spots, ShotMatching matching) {
    List<AfterPart.Stop> stops = new ArrayList<>();
    int matched = 0;
    for (int i = 0; i < spots.size(); i++) {
      List<AfterPart.Shot> shots = shots(booked, matching.atStops().get(i));
      matched += shots.size();
      stops.add(new AfterPart.Stop("/spots/" + spots.get(i).id(), spots.get(i).name(), shots));
    }
    String said =
        matched == 0 && matching.elsewhere().isEmpty()
            ? "No shot of these hours is in the ledger yet. Import them, and they are listed here."
            : Words.count(matched, "shot", "shots")
                + " at the stops, "
                + matching.elsewhere().size()
                + " elsewhere. What they show of the light is known at the spots already.";
    return new AfterPart(stops, shots(booked, matching.elsewhere()), said);
  }

  private static List<AfterPart.Shot> shots(Session booked, List<ShotMatching.Taken> taken) {
    return taken.stream()
        .map(shot -> new AfterPart.Shot(shot.shotId(), SessionWords.hour(shot.at(), booked.zone())))
        .toList();
  }
}

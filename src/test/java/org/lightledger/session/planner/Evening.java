package org.lightledger.session.planner;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.drive.Drive;
import org.lightledger.session.drive.DriveSource;
import org.lightledger.session.drive.DriveTable;
import org.lightledger.skyline.Skyline;
import org.lightledger.skyline.SkylineBuilder;
import org.lightledger.skyline.SkylineFlag;
import org.lightledger.skyline.SkylineSource;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SpaEphemeris;

/** Makes the requests of an evening at a made-up town, with a real sun and skylines. */
final class Evening {
  static final ZoneId MADRID = ZoneId.of("Europe/Madrid");

  /** The sun sets at 17:52 over a level horizon, in the direction 240 degrees. */
  static final LocalDate DAY = LocalDate.of(2026, 12, 15);

  private final SessionFrame frame;
  private final SunlightMaker light;
  private final List<PlanCandidate> candidates = new ArrayList<>();
  private final List<Spare> spares = new ArrayList<>();

  Evening(LocalTime from, LocalTime to, int lengthMin) {
    Instant start = at(from);
    this.frame = new SessionFrame(MADRID, DAY, start, at(to), lengthMin, 5);
    this.light = new SunlightMaker(new SpaEphemeris(), start, frame.spanMin());
  }

  static Instant at(LocalTime time) {
    return DAY.atTime(time).atZone(MADRID).toInstant();
  }

  static GeoPoint place(int index) {
    return new GeoPoint(41.92 + 0.004 * (index % 4), -6.43 + 0.005 * (index / 4));
  }

  /** A skyline that is level at an altitude. */
  static Skyline level(double altitudeDeg) {
    SkylineBuilder builder = new SkylineBuilder();
    for (int step = 0; step < Skyline.STEPS; step++) {
      builder.set(step, altitudeDeg, 0.2, SkylineSource.TERRAIN, EnumSet.noneOf(SkylineFlag.class));
    }
    return builder.build();
  }

  /** Adds a candidate that looks one way, with a stay of 15 to 30 minutes. */
  Evening spot(long id, String name, double facingDeg, double skylineDeg, OpenWindow... open) {
    Spot spot =
        new Spot(
            id,
            name,
            null,
            place((int) id),
            MADRID,
            false,
            List.of(new Facing(new Bearing(facingDeg), 15, Facing.Origin.OWNER, 0)),
            "",
            "");
    Skyline skyline = level(skylineDeg);
    candidates.add(
        new PlanCandidate(
            id,
            name,
            spot.position(),
            light.of(spot, skyline, List.of(), Sky.CLEAR),
            light.of(spot, skyline, List.of(), Sky.OVERCAST),
            LightWeights.USUAL,
            15,
            30,
            List.of(open),
            id % 2 == 0,
            Claim.FREE,
            0));
    return this;
  }

  Evening underCover(long id, String name) {
    spares.add(new Spare(id, name, place((int) id), true, null));
    return this;
  }

  PlanRequest request(StopLimits limits, OutfitWish outfits) {
    return new PlanRequest(frame, limits, outfits, Sky.CLEAR, candidates, drives(), spares);
  }

  private DriveTable drives() {
    Map<DriveTable.Leg, Drive> between = new HashMap<>();
    for (PlanCandidate from : candidates) {
      for (PlanCandidate to : candidates) {
        int minutes = 3 + (int) Math.abs(from.spotId() - to.spotId());
        between.put(
            new DriveTable.Leg(from.spotId(), to.spotId()),
            new Drive(minutes, DriveSource.OWNER, "Your own minutes."));
      }
    }
    return new DriveTable(between, Map.of());
  }

  static OpenWindow open(LocalTime from, LocalTime to) {
    return new OpenWindow(at(from), at(to));
  }
}

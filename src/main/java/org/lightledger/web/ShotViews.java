package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.Exposure;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.PinholeCamera;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;

/** Says what is known of a shot, and how, beside what its file says. */
final class ShotViews {
  private static final String NOTHING = "says nothing";

  private ShotViews() {}

  static List<ShotPage.Fact> facts(StoredShot stored) {
    List<ShotPage.Fact> facts = new ArrayList<>();
    Shot shot = stored.shot();
    facts.add(time(shot));
    facts.add(place(shot));
    facts.add(way(shot));
    facts.add(sun(stored.sun()));
    facts.add(exposure(shot.evidence().exposure()));
    return facts;
  }

  private static ShotPage.Fact time(Shot shot) {
    String known =
        shot.time() instanceof CaptureTime.Known time
            ? Words.day(time.local().toLocalDate())
                + ", "
                + time.local().toLocalTime().withNano(0)
                + " UTC"
                + (time.offset().getTotalSeconds() == 0 ? "" : time.offset().getId())
            : SpotViews.when(shot.time());
    ClockCorrection clock = shot.clockCorrection();
    String how = SpotViews.how(shot.time());
    return new ShotPage.Fact(
        "Time",
        known,
        clock.isNone() ? how : how + "; clock corrected by " + clock.toText(),
        fileTime(shot.evidence()));
  }

  private static String fileTime(Evidence evidence) {
    List<String> said = new ArrayList<>();
    if (evidence.localTime() != null) {
      said.add(
          String.valueOf(evidence.localTime()).replace('T', ' ')
              + (evidence.offset() == null ? ", no offset" : " UTC" + evidence.offset()));
    }
    if (evidence.gpsInstant() != null) {
      said.add("GPS time " + evidence.gpsInstant());
    } else if (evidence.gpsTimeOfDay() != null) {
      said.add("GPS time of day " + evidence.gpsTimeOfDay());
    }
    return said.isEmpty() ? NOTHING : String.join("; ", said);
  }

  private static ShotPage.Fact place(Shot shot) {
    Shot.Position position = shot.position();
    GeoPoint file = shot.evidence().position();
    return new ShotPage.Fact(
        "Place",
        position == null
            ? "not known"
            : SpotViews.position(position.point()) + within(position.errorM()),
        position == null
            ? ""
            : switch (position.source()) {
              case GPS -> "by the file's GPS position";
              case TRACK -> "by a track log, at the time of the shot";
              case NEARBY_SHOT -> "by other shots of the same minutes";
              case OWNER -> "by your word";
            },
        file == null
            ? NOTHING
            : SpotViews.position(file) + within(shot.evidence().positionErrorM()));
  }

  private static String within(@Nullable Double errorM) {
    return errorM == null ? "" : String.format(Locale.ROOT, ", ± %.0f m", errorM);
  }

  private static ShotPage.Fact way(Shot shot) {
    Shot.Facing facing = shot.facing();
    Evidence.Direction direction = shot.evidence().direction();
    return new ShotPage.Fact(
        "Direction",
        facing == null ? "not known" : fine(facing.bearing()),
        facing == null
            ? ""
            : switch (facing.source()) {
              case TRUE_DIRECTION_TAG -> "by the file's true direction";
              case MAGNETIC_DIRECTION_TAG ->
                  "by the file's magnetic direction, made true for date and place";
              case SUN_IN_PICTURE -> "by the sun, tapped in the picture";
              case SHADOW_IN_PICTURE -> "by a shadow, tapped in the picture";
              case OWNER -> "by your word";
            },
        direction == null
            ? NOTHING
            : String.format(
                Locale.ROOT,
                "%.1f° from %s",
                direction.azimuthDeg(),
                switch (direction.reference()) {
                  case TRUE -> "true north";
                  case MAGNETIC -> "magnetic north";
                  case NOT_STATED -> "a north it does not state";
                }));
  }

  static String fine(Bearing bearing) {
    return String.format(Locale.ROOT, "%s %.1f°", bearing.compassPoint(), bearing.trueDeg());
  }

  private static ShotPage.Fact sun(@Nullable SunDirection sun) {
    return new ShotPage.Fact(
        "Sun",
        sun == null ? "not known" : Words.sun(sun),
        sun == null ? "needs a time and a place" : "computed for time and place",
        "");
  }

  private static ShotPage.Fact exposure(Exposure exposure) {
    Double ev100 = exposure.ev100();
    List<String> said = new ArrayList<>();
    Double time = exposure.exposureTimeS();
    if (time != null) {
      said.add(
          time < 1
              ? String.format(Locale.ROOT, "1/%.0f s", 1 / time)
              : String.format(Locale.ROOT, "%.1f s", time));
    }
    if (exposure.fNumber() != null) {
      said.add(String.format(Locale.ROOT, "f/%.1f", exposure.fNumber()));
    }
    if (exposure.isoSpeed() != null) {
      said.add(String.format(Locale.ROOT, "ISO %.0f", exposure.isoSpeed()));
    }
    return new ShotPage.Fact(
        "EV100",
        ev100 == null ? "not known" : String.format(Locale.ROOT, "%.1f", ev100),
        ev100 == null ? "" : "from time, aperture and sensitivity",
        said.isEmpty() ? NOTHING : String.join(", ", said));
  }

  /** A bearing and half of the camera's field of view, as the map's script reads them. */
  static String wedge(Bearing bearing, Evidence evidence) {
    double half = PinholeCamera.of(evidence).map(c -> c.horizontalFieldDeg() / 2).orElse(0.0);
    return String.format(Locale.ROOT, "%.1f:%.1f", bearing.trueDeg(), half);
  }

  static String view(Evidence evidence) {
    Optional<PinholeCamera> camera = PinholeCamera.of(evidence);
    return camera
        .map(
            c ->
                String.format(
                    Locale.ROOT,
                    "The picture is %.0f° wide and %.0f° high.",
                    c.horizontalFieldDeg(),
                    c.verticalFieldDeg()))
        .orElse("The file does not tell how wide the lens saw; the wedge is only a pointer.");
  }

  /** The size of the picture once it is turned upright. */
  static ShotPage.@Nullable Size size(Evidence evidence) {
    Integer width = evidence.widthPx();
    Integer height = evidence.heightPx();
    if (width == null || height == null) {
      return null;
    }
    return PinholeCamera.isTurned(evidence)
        ? new ShotPage.Size(height, width)
        : new ShotPage.Size(width, height);
  }
}

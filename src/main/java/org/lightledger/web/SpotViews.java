package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;
import org.lightledger.web.chart.FacingDial;
import org.lightledger.web.chart.LightGlyph;
import org.lightledger.web.chart.SunPathChart;

/** Turns spots and shots into what their pages show. */
final class SpotViews {
  private SpotViews() {}

  static SpotsPage.Row row(Spot spot, int shots) {
    String area = spot.area();
    return new SpotsPage.Row(
        spot.id(),
        "/spots/" + spot.id(),
        spot.name(),
        area == null ? "" : area,
        facingWords(spot),
        Words.count(shots, "shot", "shots"),
        !spot.cautions().isEmpty(),
        FacingDial.facings("dial-" + spot.id(), spot.facings(), spot.open(), null),
        coordinate(spot.position().latitudeDeg()),
        coordinate(spot.position().longitudeDeg()),
        wedges(spot));
  }

  private static String facingWords(Spot spot) {
    String facings =
        spot.facings().stream()
            .map(facing -> Words.bearing(facing.bearing()))
            .collect(Collectors.joining(", "));
    if (spot.open()) {
      return facings.isEmpty() ? "open: any way works" : "open; " + facings;
    }
    return facings.isEmpty() ? "no facing known" : "faces " + facings;
  }

  static String wedges(Spot spot) {
    return spot.facings().stream()
        .map(
            facing ->
                String.format(
                    Locale.ROOT, "%.1f:%.1f", facing.bearing().trueDeg(), facing.spreadDeg()))
        .collect(Collectors.joining(";"));
  }

  /** The spot's facings; the owner's own carry the number to remove them by. */
  static List<SpotPage.FacingRow> facings(Spot spot) {
    List<SpotPage.FacingRow> rows = new ArrayList<>();
    int own = 0;
    for (Facing facing : spot.facings()) {
      boolean owners = facing.origin() == Facing.Origin.OWNER;
      rows.add(
          new SpotPage.FacingRow(
              Words.bearing(facing.bearing()),
              "good for " + Words.degrees(facing.spreadDeg()) + " to either side",
              owners
                  ? "set by you"
                  : "learned from " + Words.count(facing.shots(), "shot", "shots"),
              owners ? String.valueOf(own) : null,
              String.valueOf(facing.bearing().trueDeg())));
      own += owners ? 1 : 0;
    }
    return rows;
  }

  static SpotPage.ShotCard shot(StoredShot stored, @Nullable SunOnSubject said) {
    Shot shot = stored.shot();
    SunDirection sun = stored.sun();
    Shot.Facing facing = shot.facing();
    Double ev100 = shot.evidence().exposure().ev100();
    Shot.Position position = shot.position();
    String how = how(shot.time());
    return new SpotPage.ShotCard(
        stored.id(),
        when(shot.time()),
        how,
        facing == null ? "" : Words.bearing(facing.bearing()),
        sun == null ? "" : Words.sun(sun),
        sun == null || facing == null ? null : light(sun, facing.bearing()),
        ev100 == null ? "" : String.format(Locale.ROOT, "%.1f", ev100),
        position == null ? "" : coordinate(position.point().latitudeDeg()),
        position == null ? "" : coordinate(position.point().longitudeDeg()),
        SunTap.of(stored, said),
        shot.problems().stream()
            .map(Problem::message)
            .filter(message -> !message.equals(how))
            .toList());
  }

  static SpotPage.Light light(SunDirection sun, Bearing facing) {
    LightClass light = LightRules.classify(sun, facing);
    double turnDeg = facing.turnToDeg(sun.azimuth());
    return new SpotPage.Light(
        LightGlyph.of(light, turnDeg), Words.capital(light.label()), Words.side(light, turnDeg));
  }

  static String when(CaptureTime time) {
    if (time instanceof CaptureTime.Known known) {
      return Words.moment(known.local());
    }
    if (time instanceof CaptureTime.Ambiguous ambiguous) {
      return Words.day(ambiguous.local().toLocalDate())
          + ", "
          + Words.hour(ambiguous.local().toLocalTime())
          + " by the camera";
    }
    return "time not known";
  }

  static String how(CaptureTime time) {
    if (time instanceof CaptureTime.Known known) {
      return switch (known.source()) {
        case OFFSET_TAG -> "by the camera's clock and its offset";
        case GPS_TIME -> "by the camera's clock and GPS time";
        case PLACE_ZONE -> "by the camera's clock, in the zone of the place";
        case OWNER -> "by your word";
      };
    }
    return time instanceof CaptureTime.Ambiguous ambiguous
        ? ambiguous.reason()
        : ((CaptureTime.Unknown) time).reason();
  }

  static List<SunPathChart.ShotSun> suns(List<StoredShot> shots) {
    List<SunPathChart.ShotSun> suns = new ArrayList<>();
    for (StoredShot stored : shots) {
      SunDirection sun = stored.sun();
      if (sun != null) {
        suns.add(
            new SunPathChart.ShotSun(
                "#shot-" + stored.id(),
                "Shot of " + when(stored.shot().time()) + ", sun " + Words.sun(sun),
                sun));
      }
    }
    return suns;
  }

  static String position(GeoPoint point) {
    return String.format(
        Locale.ROOT,
        "%.5f° %s, %.5f° %s",
        Math.abs(point.latitudeDeg()),
        point.latitudeDeg() < 0 ? "S" : "N",
        Math.abs(point.longitudeDeg()),
        point.longitudeDeg() < 0 ? "W" : "E");
  }

  static String coordinate(double angleDeg) {
    return String.format(Locale.ROOT, "%.6f", angleDeg);
  }
}

package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.track.GpxReader;
import org.lightledger.shot.track.TrackLimits;
import org.lightledger.shot.track.TrackPlaces;

/** A desk with corrections for each test, and words to correct by. */
abstract class CorrectionsTestBase {
  static final GeoPoint MILL = new GeoPoint(41.93, -6.42);
  static final GeoPoint CHAPEL = new GeoPoint(41.932, -6.42);
  static final ZoneId MADRID = ZoneId.of("Europe/Madrid");

  @TempDir Path folder;
  Desk desk;

  @BeforeEach
  void open() {
    desk = new Desk(folder);
  }

  @AfterEach
  void close() {
    desk.close();
  }

  /** Applies a correction, shows that undoing it leaves no trace, and applies it again. */
  Corrected applyBackAndForth(Correction correction, long... shotIds) {
    List<String> before = desk.everything();
    var profiles = desk.profiles();
    Corrected first = desk.apply(correction, shotIds);
    List<String> after = desk.everything();
    Long id = first.id();
    if (id == null) {
      assertThat(after).as("a correction that changes nothing leaves no trace").isEqualTo(before);
      return first;
    }
    assertThat(after).isNotEqualTo(before);
    assertThat(desk.corrections().undo(id)).isPresent();
    assertThat(desk.everything()).as("undone").isEqualTo(before);
    assertThat(desk.profiles()).isEqualTo(profiles);
    Corrected again = desk.apply(correction, shotIds);
    assertThat(again.outcomes()).isEqualTo(first.outcomes());
    return again;
  }

  static Outcome.Kind only(Corrected corrected) {
    assertThat(corrected.outcomes()).hasSize(1);
    return corrected.outcomes().get(0).kind();
  }

  static String why(Corrected corrected) {
    return String.join(" ", corrected.outcomes().get(0).why());
  }

  Instant instant(long id) {
    return ((CaptureTime.Known) desk.shot(id).shot().time()).instant();
  }

  static Correction clock(String text) {
    return Correction.of(new TimeWord.Clock(ClockCorrection.parse(text)));
  }

  static Correction zone(String name) {
    return Correction.of(new TimeWord.Zone(ZoneId.of(name)));
  }

  static Correction at(GeoPoint point) {
    return Correction.of(new PlaceWord.Point(point));
  }

  static Correction looked(double bearingDeg) {
    return Correction.of(new FacingWord.Looked(new Bearing(bearingDeg)));
  }

  static Correction byHand(String local, @Nullable String zone) {
    return Correction.of(
        new TimeWord.ByHand(LocalDateTime.parse(local), zone == null ? null : ZoneId.of(zone)));
  }

  static TrackPlaces walk(String... points) {
    StringBuilder gpx = new StringBuilder("<gpx version=\"1.1\"><trk><trkseg>");
    for (int i = 0; i < points.length; i += 3) {
      gpx.append(
          "<trkpt lat=\"%s\" lon=\"%s\"><time>%s</time></trkpt>"
              .formatted(points[i + 1], points[i + 2], points[i]));
    }
    gpx.append("</trkseg></trk></gpx>");
    try {
      return new TrackPlaces(
          List.of(
              GpxReader.read(
                  new ByteArrayInputStream(gpx.toString().getBytes(StandardCharsets.UTF_8)))),
          TrackLimits.standard());
    } catch (Exception e) {
      throw new IllegalStateException(e);
    }
  }

  static Correction tapped(Taps taps) {
    return Correction.of(new FacingWord.Tapped(taps));
  }

  static Correction choice(String offset) {
    return Correction.of(new TimeWord.Choice(ZoneOffset.of(offset)));
  }
}

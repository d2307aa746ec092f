package org.lightledger.shot.track;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.lightledger.geo.GeoPoint;
import org.lightledger.testing.Reference;

/** Track logs for tests. */
public final class Tracks {
  private Tracks() {}

  /** The track of a table in the test resources. */
  public static TrackLog ofTable(String name) {
    Map<String, List<TrackPoint>> segments = new TreeMap<>();
    for (Map<String, String> row : table(name)) {
      segments
          .computeIfAbsent(row.get("segment"), segment -> new ArrayList<>())
          .add(
              new TrackPoint(
                  Instant.parse(row.get("time")),
                  new GeoPoint(
                      Double.parseDouble(row.get("latitude_deg")),
                      Double.parseDouble(row.get("longitude_deg"))),
                  Double.valueOf(row.get("altitude_m")),
                  null));
    }
    return new TrackLog(
        segments.values().stream().map(TrackSegment::of).toList(), TrackLog.NotUsed.NOTHING);
  }

  /** The rows of a table in the test resources. */
  public static List<Map<String, String>> table(String name) {
    try {
      return Reference.read(
          Path.of(
              Objects.requireNonNull(Tracks.class.getResource("/tracks/" + name + ".csv"))
                  .toURI()));
    } catch (URISyntaxException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The track of a reference file. */
  public static TrackLog ofReference(String name) throws IOException, UnreadableTrackException {
    try (InputStream in = Files.newInputStream(Reference.path("tracks/" + name))) {
      return GpxReader.read(in);
    }
  }

  /** The track of a text. */
  static TrackLog ofText(String text) throws IOException, UnreadableTrackException {
    return GpxReader.read(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
  }

  /** A log of one segment. */
  static TrackLog of(TrackPoint... points) {
    return new TrackLog(List.of(TrackSegment.of(List.of(points))), TrackLog.NotUsed.NOTHING);
  }

  /** A point without height. */
  static TrackPoint point(String time, double latitudeDeg, double longitudeDeg) {
    return new TrackPoint(Instant.parse(time), new GeoPoint(latitudeDeg, longitudeDeg), null, null);
  }
}

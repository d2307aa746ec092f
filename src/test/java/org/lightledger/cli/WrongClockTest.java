package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;

/**
 * A camera without GPS whose clock is an hour ahead, and a track log of the walk: one command puts
 * every shot where and when it was taken.
 */
class WrongClockTest {
  private static final int DATE_TIME_ORIGINAL = 0x9003;
  private static final GeoPoint START = new GeoPoint(41.93, -6.42);
  private static final Instant SET_OUT = Instant.parse("2026-05-09T16:00:00Z");
  private static final ZoneOffset SUMMER = ZoneOffset.ofHours(2);
  private static final double WALKING_M_PER_S = 1.2;
  private static final int SHOTS = 40;
  private static final int LOG_EVERY_S = 15;

  @TempDir Path folder;

  @Test
  void everyShotLandsWithinFiveMetresAndOneSecond() throws IOException {
    Path track = Files.writeString(folder.resolve("walk.gpx"), gpx());
    Map<String, Instant> takenAt = writePhotos();

    Console.Outcome outcome =
        new Console(folder)
            .run(
                "--ledger",
                folder.resolve("ledger").toString(),
                "import",
                folder.resolve("photos").toString(),
                "--track",
                track.toString(),
                "--camera-offset",
                "-1:00:00",
                "--json");

    assertThat(outcome.exitCode()).isZero();
    JsonNode report = new ObjectMapper().readTree(outcome.out());
    assertThat(report.get("added").asInt()).isEqualTo(SHOTS);
    for (JsonNode file : report.get("files")) {
      Instant truth = takenAt.get(Path.of(file.get("path").asText()).getFileName().toString());
      Instant found = OffsetDateTime.parse(file.get("capturedAt").asText()).toInstant();
      assertThat(Duration.between(truth, found).abs()).isLessThanOrEqualTo(Duration.ofSeconds(1));
      GeoPoint place = new GeoPoint(file.get("lat").asDouble(), file.get("lon").asDouble());
      assertThat(Geodesy.distanceM(place, at(truth))).isLessThan(5);
      assertThat(file.get("positionSource").asText()).isEqualTo("track");
    }
  }

  @Test
  void withoutTheCorrectionNothingIsPlacedByGuesswork() throws IOException {
    Path track = Files.writeString(folder.resolve("walk.gpx"), gpx());
    writePhotos();

    Console.Outcome outcome =
        new Console(folder)
            .run(
                "--ledger",
                folder.resolve("ledger").toString(),
                "import",
                folder.resolve("photos").toString(),
                "--json");

    assertThat(track).exists();
    JsonNode report = new ObjectMapper().readTree(outcome.out());
    assertThat(report.get("needsAttention").asInt()).isEqualTo(SHOTS);
    assertThat(report.get("spotsMade").asInt()).isZero();
  }

  /** The walk: straight to the north-east, at an even pace. */
  private static GeoPoint at(Instant instant) {
    double seconds = Duration.between(SET_OUT, instant).toMillis() / 1000.0;
    return Geodesy.destination(START, new Bearing(45), WALKING_M_PER_S * seconds);
  }

  private static String gpx() {
    StringBuilder gpx =
        new StringBuilder(
            "<gpx version=\"1.1\" creator=\"test\""
                + " xmlns=\"http://www.topografix.com/GPX/1/1\"><trk><trkseg>");
    for (int second = 0; second <= 1800; second += LOG_EVERY_S) {
      Instant instant = SET_OUT.plusSeconds(second);
      gpx.append(
          String.format(
              Locale.ROOT,
              "<trkpt lat=\"%.7f\" lon=\"%.7f\"><time>%s</time></trkpt>",
              at(instant).latitudeDeg(),
              at(instant).longitudeDeg(),
              instant));
    }
    return gpx.append("</trkseg></trk></gpx>").toString();
  }

  private Map<String, Instant> writePhotos() throws IOException {
    DateTimeFormatter exif = DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT);
    Map<String, Instant> takenAt = new HashMap<>();
    Files.createDirectories(folder.resolve("photos"));
    for (int i = 0; i < SHOTS; i++) {
      Instant taken = SET_OUT.plusSeconds(7 + 43L * i);
      String wrongClock = exif.format(taken.atOffset(SUMMER).plusHours(1));
      String name = "dsc" + i + ".jpg";
      Files.write(
          folder.resolve("photos").resolve(name),
          ExifBuilder.bigEndian().ascii(Directory.EXIF, DATE_TIME_ORIGINAL, wrongClock).jpeg());
      takenAt.put(name, taken);
    }
    return takenAt;
  }
}

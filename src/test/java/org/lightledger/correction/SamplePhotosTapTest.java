package org.lightledger.correction;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.Pixel;
import org.lightledger.store.StoredShot;

/** On every sample photo with the sun in its picture, a tap tells the facing. */
class SamplePhotosTapTest {
  /** The promise of the page: half a degree. */
  private static final double PROMISED_DEG = 0.5;

  private static final Path PHOTOS = Path.of("sample-photos");

  @TempDir Path folder;

  @Test
  void aTapOnTheSunTellsTheFacingWithinHalfADegree() throws IOException {
    List<Map<String, String>> inFrame =
        truth().stream().filter(row -> row.get("sun_in_frame").equals("yes")).toList();
    assertThat(inFrame).hasSizeGreaterThanOrEqualTo(15);
    try (Desk desk = new Desk(folder)) {
      desk.importFrom(PHOTOS);
      Map<String, StoredShot> byName =
          desk.ledger()
              .read(
                  session ->
                      inFrame.stream()
                          .map(row -> session.files().find(file(row)).orElseThrow().shotId())
                          .map(id -> session.shots().find(Objects.requireNonNull(id)).orElseThrow())
                          .collect(
                              Collectors.toMap(
                                  shot -> shot.files().get(0).toString(), Function.identity())));
      double worstDeg = 0;
      for (Map<String, String> row : inFrame) {
        StoredShot stored = Objects.requireNonNull(byName.get(file(row).toString()));
        settle(desk, stored, row);
        Pixel sun = new Pixel(number(row, "sun_x_px"), number(row, "sun_y_px"));
        Corrected corrected =
            desk.apply(Correction.of(new FacingWord.Tapped(new Taps.Sun(sun))), stored.id());
        assertThat(corrected.id()).as(row.get("file") + " " + corrected.outcomes()).isNotNull();
        Shot.Facing facing = Objects.requireNonNull(desk.shot(stored.id()).shot().facing());
        Bearing truth = Bearing.of(number(row, "facing_true_deg"));
        double offDeg = Math.abs(facing.bearing().turnToDeg(truth));
        assertThat(offDeg).as(row.get("file")).isLessThanOrEqualTo(PROMISED_DEG);
        worstDeg = Math.max(worstDeg, offDeg);
      }
      assertThat(worstDeg).as("a file's seconds and pixels are rounded").isGreaterThan(0);
    }
  }

  /** Shots without a time or a place get both first, as an owner would give them. */
  private static void settle(Desk desk, StoredShot stored, Map<String, String> row) {
    if (stored.sun() == null) {
      LocalDateTime utc =
          OffsetDateTime.parse(row.get("utc"))
              .withOffsetSameInstant(ZoneOffset.UTC)
              .toLocalDateTime();
      desk.apply(
          new Correction(
              new TimeWord.ByHand(utc, ZoneOffset.UTC),
              new PlaceWord.Point(new GeoPoint(number(row, "lat"), number(row, "lon"))),
              null),
          stored.id());
    }
    assertThat(desk.shot(stored.id()).sun()).as(row.get("file")).isNotNull();
  }

  private static Path file(Map<String, String> row) {
    return PHOTOS.resolve(Objects.requireNonNull(row.get("file"))).toAbsolutePath();
  }

  private static double number(Map<String, String> row, String column) {
    return Double.parseDouble(row.get(column));
  }

  private static List<Map<String, String>> truth() throws IOException {
    List<String> lines = Files.readAllLines(PHOTOS.resolve("truth.csv"));
    List<String> columns = List.of(lines.get(0).split(",", -1));
    return lines.stream()
        .skip(1)
        .map(line -> List.of(line.split(",", -1)))
        .map(
            values ->
                IntStream.range(0, columns.size())
                    .boxed()
                    .collect(Collectors.toMap(columns::get, values::get)))
        .toList();
  }
}

package org.lightledger.demo;

import com.fasterxml.jackson.databind.MappingIterator;
import com.fasterxml.jackson.dataformat.csv.CsvMapper;
import com.fasterxml.jackson.dataformat.csv.CsvSchema;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.lightledger.geo.GeoPoint;

/** The demo studio's own words about its spots: a table with a head line. */
final class SpotsFile {
  private SpotsFile() {}

  /**
   * One spot.
   *
   * @param name its name
   * @param area the area it belongs to
   * @param position where it is
   * @param notes what the studio wrote about it
   * @param cautions what to mind there
   */
  record Line(String name, String area, GeoPoint position, String notes, String cautions) {}

  static List<Line> read(Path file) {
    List<Line> lines = new ArrayList<>();
    try (MappingIterator<Map<String, String>> rows =
        new CsvMapper()
            .readerForMapOf(String.class)
            .with(CsvSchema.emptySchema().withHeader())
            .readValues(file.toFile())) {
      while (rows.hasNext()) {
        lines.add(line(rows.next()));
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the demo's spots can not be read from " + file, e);
    }
    return lines;
  }

  private static Line line(Map<String, String> row) {
    return new Line(
        row.getOrDefault("name", ""),
        row.getOrDefault("area", ""),
        new GeoPoint(
            Double.parseDouble(row.getOrDefault("lat", "")),
            Double.parseDouble(row.getOrDefault("lon", ""))),
        row.getOrDefault("note", ""),
        row.getOrDefault("caution", ""));
  }
}

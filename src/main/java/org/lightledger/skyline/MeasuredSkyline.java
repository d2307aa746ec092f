package org.lightledger.skyline;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import org.lightledger.geo.Angles;

/**
 * A skyline measured by hand at the spot, as with a phone's clinometer and compass: points of
 * azimuth and altitude, joined by straight lines around the whole circle, however wide a gap is.
 * Between two points the uncertainty grows up to half of their difference.
 */
public final class MeasuredSkyline {
  /** What a hand-held reading is good for, degrees: own choice, no source. */
  private static final double READING_SIGMA_DEG = 1.0;

  /** Readings this close leave nothing out between them, degrees: own choice. */
  private static final double DENSE_DEG = 5.0;

  private static final int FEWEST_POINTS = 2;

  private MeasuredSkyline() {}

  /**
   * One reading.
   *
   * @param azimuthDeg true azimuth, degrees in [0, 360)
   * @param altitudeDeg apparent altitude of the obstruction, degrees in [-90, 90]
   */
  public record Point(double azimuthDeg, double altitudeDeg) {

    /**
     * Checks the angles.
     *
     * @throws IllegalArgumentException when one is out of its interval or not a number
     */
    public Point {
      if (!(azimuthDeg >= 0.0 && azimuthDeg < 360.0)) {
        throw new IllegalArgumentException(
            "expected an azimuth in [0, 360) degrees, found " + azimuthDeg);
      }
      if (!(altitudeDeg >= -90.0 && altitudeDeg <= 90.0)) {
        throw new IllegalArgumentException(
            "expected an altitude in [-90, 90] degrees, found " + altitudeDeg);
      }
    }
  }

  /**
   * Reads a list of points.
   *
   * @param file lines of azimuth and altitude in degrees with a point as the decimal sign, parted
   *     by a comma; a header, empty lines and lines that begin with # are passed over
   * @return the points, in the order of the file
   * @throws IOException when the file can not be read
   * @throws IllegalArgumentException naming every line that can not be used
   */
  public static List<Point> read(Path file) throws IOException {
    return points(Files.readAllLines(file, StandardCharsets.UTF_8));
  }

  /**
   * Reads a list of points.
   *
   * @param lines as in {@link #read}
   * @return the skyline
   * @throws IllegalArgumentException naming every line that can not be used
   */
  public static Skyline parse(List<String> lines) {
    return of(points(lines));
  }

  /**
   * Reads a list of points.
   *
   * @param lines as in {@link #read}
   * @return the points, in the order of the lines
   * @throws IllegalArgumentException naming every line that can not be used
   */
  public static List<Point> points(List<String> lines) {
    List<Point> points = new ArrayList<>();
    List<String> problems = new ArrayList<>();
    boolean first = true;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i).strip();
      if (i == 0 && line.startsWith("\uFEFF")) {
        line = line.substring(1).strip();
      }
      if (line.isEmpty() || line.startsWith("#")) {
        continue;
      }
      boolean header = first && line.chars().noneMatch(Character::isDigit);
      first = false;
      if (!header) {
        try {
          points.add(point(line));
        } catch (IllegalArgumentException e) {
          problems.add("line " + (i + 1) + ": " + e.getMessage());
        }
      }
    }
    if (!problems.isEmpty()) {
      throw new IllegalArgumentException(String.join("; ", problems));
    }
    return points;
  }

  /**
   * Puts readings onto a model. Between two readings at most {@value #DENSE_DEG} degrees apart the
   * readings stand, for whoever stood there saw what the model only works out; elsewhere the higher
   * of both does.
   *
   * @param points at least two, of different azimuths
   * @param model the skyline without them
   * @return both in one
   * @throws IllegalArgumentException when there are fewer, or two of one azimuth
   */
  public static Skyline onto(List<Point> points, Skyline model) {
    Skyline measured = of(points);
    SkylineBuilder builder = new SkylineBuilder(model.combine(measured));
    List<Point> sorted = new ArrayList<>(points);
    sorted.sort(Comparator.comparingDouble(Point::azimuthDeg));
    for (int i = 0; i < sorted.size(); i++) {
      double fromDeg = sorted.get(i).azimuthDeg();
      double widthDeg =
          Angles.normalizeDeg(sorted.get((i + 1) % sorted.size()).azimuthDeg() - fromDeg);
      if (widthDeg <= DENSE_DEG) {
        int first = (int) Math.ceil(fromDeg / Skyline.STEP_DEG);
        int last = (int) Math.floor((fromDeg + widthDeg) / Skyline.STEP_DEG);
        for (int turned = first; turned <= last; turned++) {
          int step = turned % Skyline.STEPS;
          builder.set(
              step,
              measured.altitudeDeg(step),
              measured.uncertaintyDeg(step),
              SkylineSource.MEASURED,
              measured.flags(step));
        }
      }
    }
    return builder.build();
  }

  private static Point point(String line) {
    String expected = "expected azimuth,altitude such as 135.5,8.2";
    String[] fields = line.split(",", -1);
    if (line.indexOf(';') >= 0 || fields.length > 2) {
      throw new IllegalArgumentException(
          expected
              + ", found \""
              + line
              + "\"; write decimals with a point and one comma between the two numbers");
    }
    try {
      if (fields.length == 2) {
        return new Point(
            Double.parseDouble(fields[0].strip()), Double.parseDouble(fields[1].strip()));
      }
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(expected + ", found \"" + line + "\"", e);
    }
    throw new IllegalArgumentException(expected + ", found \"" + line + "\"");
  }

  /**
   * Joins readings.
   *
   * @param points at least two, of different azimuths, in any order
   * @return the skyline, everywhere of source measured
   * @throws IllegalArgumentException when there are fewer, or two of one azimuth
   */
  public static Skyline of(List<Point> points) {
    if (points.size() < FEWEST_POINTS) {
      throw new IllegalArgumentException(
          "expected at least 2 points of azimuth and altitude, found " + points.size());
    }
    List<Point> sorted = new ArrayList<>(points);
    sorted.sort(Comparator.comparingDouble(Point::azimuthDeg));
    for (int i = 1; i < sorted.size(); i++) {
      if (sorted.get(i).azimuthDeg() == sorted.get(i - 1).azimuthDeg()) {
        throw new IllegalArgumentException(
            "expected one altitude for each azimuth, found two for azimuth "
                + sorted.get(i).azimuthDeg());
      }
    }
    SkylineBuilder builder = new SkylineBuilder();
    int next = 0;
    for (int step = 0; step < Skyline.STEPS; step++) {
      double azimuthDeg = Skyline.azimuthDeg(step);
      while (next < sorted.size() && sorted.get(next).azimuthDeg() <= azimuthDeg) {
        next++;
      }
      Point before = sorted.get(next == 0 ? sorted.size() - 1 : next - 1);
      Point after = sorted.get(next % sorted.size());
      double part =
          Angles.normalizeDeg(azimuthDeg - before.azimuthDeg())
              / Angles.normalizeDeg(after.azimuthDeg() - before.azimuthDeg());
      double difference = after.altitudeDeg() - before.altitudeDeg();
      double between = 2.0 * part * (1.0 - part) * Math.abs(difference);
      builder.set(
          step,
          before.altitudeDeg() + part * difference,
          Math.hypot(READING_SIGMA_DEG, between),
          SkylineSource.MEASURED,
          EnumSet.noneOf(SkylineFlag.class));
    }
    return builder.build();
  }
}

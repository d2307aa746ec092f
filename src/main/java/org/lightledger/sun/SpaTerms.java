package org.lightledger.sun;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The tables of periodic terms behind {@link SpaEphemeris}, read once from the files beside this
 * class. Each file names its source in its first lines.
 */
final class SpaTerms {
  /** Heliocentric longitude, one series for each power of time, 1e-8 radians. */
  static final Series[] LONGITUDE;

  /** Heliocentric latitude, one series for each power of time, 1e-8 radians. */
  static final Series[] LATITUDE;

  /** Radius vector, one series for each power of time, 1e-8 astronomical units. */
  static final Series[] RADIUS;

  /** Nutation: rows of five multiples and four coefficients. */
  static final double[][] NUTATION;

  static {
    List<String[]> earth = rows("spa-earth-terms.csv", 4);
    LONGITUDE = series(earth, "L0", "L1", "L2", "L3", "L4", "L5");
    LATITUDE = series(earth, "B0", "B1");
    RADIUS = series(earth, "R0", "R1");
    NUTATION =
        rows("spa-nutation-terms.csv", 9).stream().map(SpaTerms::numbers).toArray(double[][]::new);
  }

  private SpaTerms() {}

  /** A sum of cosines: amplitude times cos(phase + frequency times time). */
  static final class Series {
    private final double[] amplitude;
    private final double[] phase;
    private final double[] frequency;

    private Series(List<String[]> terms) {
      amplitude = column(terms, 1);
      phase = column(terms, 2);
      frequency = column(terms, 3);
    }

    double sum(double time) {
      double sum = 0.0;
      for (int i = 0; i < amplitude.length; i++) {
        sum += amplitude[i] * Math.cos(phase[i] + frequency[i] * time);
      }
      return sum;
    }

    private static double[] column(List<String[]> terms, int index) {
      return terms.stream().mapToDouble(term -> Double.parseDouble(term[index])).toArray();
    }
  }

  /**
   * The value of a power series whose coefficients are themselves sums of cosines.
   *
   * @param powers one series for each power of time, the zeroth first
   * @param time Julian millennia since J2000
   * @return the sum, in units of the table
   */
  static double evaluate(Series[] powers, double time) {
    double sum = 0.0;
    for (int i = powers.length - 1; i >= 0; i--) {
      sum = sum * time + powers[i].sum(time);
    }
    return sum;
  }

  private static Series[] series(List<String[]> terms, String... names) {
    Series[] result = new Series[names.length];
    for (int i = 0; i < names.length; i++) {
      String name = names[i];
      result[i] = new Series(terms.stream().filter(term -> term[0].equals(name)).toList());
    }
    return result;
  }

  private static double[] numbers(String[] row) {
    double[] numbers = new double[row.length];
    for (int i = 0; i < row.length; i++) {
      numbers[i] = Double.parseDouble(row[i]);
    }
    return numbers;
  }

  private static List<String[]> rows(String file, int columns) {
    try (InputStream stream = SpaTerms.class.getResourceAsStream(file)) {
      if (stream == null) {
        throw new IllegalStateException("expected the table " + file + " beside this class");
      }
      BufferedReader reader =
          new BufferedReader(new InputStreamReader(stream, StandardCharsets.US_ASCII));
      return reader
          .lines()
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .map(line -> row(file, line, columns))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read the table " + file, e);
    }
  }

  private static String[] row(String file, String line, int columns) {
    String[] row = line.split(",", -1);
    if (row.length != columns) {
      throw new IllegalStateException(
          "expected " + columns + " columns in " + file + ", found \"" + line + "\"");
    }
    return row;
  }
}

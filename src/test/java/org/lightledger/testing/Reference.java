package org.lightledger.testing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Assumptions;
import org.opentest4j.TestAbortedException;

/**
 * Finds the large reference tables, which are not part of the project. They are looked for in the
 * folder named by the system property {@code lightledger.reference}, else by the environment
 * variable {@code LIGHTLEDGER_REFERENCE}, else in {@code ../shared/reference}. Without them a test
 * is skipped; under continuous integration (environment {@code CI=true}) it fails instead.
 */
public final class Reference {
  private static final String PROPERTY = "lightledger.reference";
  private static final String VARIABLE = "LIGHTLEDGER_REFERENCE";

  private Reference() {}

  /**
   * A reference file.
   *
   * @param relative for example "solar/reference-positions.csv"
   * @return where it is
   * @throws TestAbortedException when it is absent and this is not continuous integration
   */
  public static Path path(String relative) {
    Path file = root().resolve(relative);
    if (!Files.exists(file)) {
      String message =
          "no reference file "
              + relative
              + "; name the folder of the reference tables by -D"
              + PROPERTY
              + " or by the environment variable "
              + VARIABLE;
      if ("true".equals(System.getenv("CI"))) {
        Assertions.fail(message);
      }
      Assumptions.abort(message);
    }
    return file;
  }

  /**
   * The rows of a reference table.
   *
   * @param relative a file with a header line
   * @return each row by column name
   */
  public static List<Map<String, String>> csv(String relative) {
    return read(path(relative));
  }

  /**
   * The rows of any table. Fields may be quoted; lines that begin with # are remarks.
   *
   * @param file a file with a header line
   * @return each row by column name
   */
  public static List<Map<String, String>> read(Path file) {
    try {
      List<List<String>> lines =
          Files.readAllLines(file, StandardCharsets.UTF_8).stream()
              .filter(line -> !line.isBlank() && !line.startsWith("#"))
              .map(Reference::fields)
              .toList();
      List<String> header = lines.get(0);
      List<Map<String, String>> rows = new ArrayList<>();
      for (List<String> line : lines.subList(1, lines.size())) {
        Assertions.assertEquals(header.size(), line.size(), () -> "fields in " + line);
        Map<String, String> row = new LinkedHashMap<>();
        for (int i = 0; i < header.size(); i++) {
          row.put(header.get(i), line.get(i));
        }
        rows.add(row);
      }
      return rows;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read " + file, e);
    }
  }

  /** Splits one line; a quoted field may hold commas, and a doubled quote stands for one quote. */
  static List<String> fields(String line) {
    List<String> fields = new ArrayList<>();
    StringBuilder field = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < line.length(); i++) {
      char c = line.charAt(i);
      if (c == '"' && quoted && i + 1 < line.length() && line.charAt(i + 1) == '"') {
        field.append('"');
        i++;
      } else if (c == '"') {
        quoted = !quoted;
      } else if (c == ',' && !quoted) {
        fields.add(field.toString());
        field.setLength(0);
      } else {
        field.append(c);
      }
    }
    fields.add(field.toString());
    return fields;
  }

  private static Path root() {
    String property = System.getProperty(PROPERTY);
    if (property != null) {
      return Path.of(property);
    }
    String variable = System.getenv(VARIABLE);
    return variable != null ? Path.of(variable) : Path.of("..", "shared", "reference");
  }
}

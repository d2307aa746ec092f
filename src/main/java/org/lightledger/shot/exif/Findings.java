package org.lightledger.shot.exif;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lightledger.shot.Problem;

/** Collects the problems met while one file is read; numbers are written alike in every locale. */
final class Findings {
  private final List<Problem> problems = new ArrayList<>();

  void add(Problem.Kind kind, String format, Object... values) {
    problems.add(new Problem(kind, String.format(Locale.ROOT, format, values)));
  }

  void damaged(String format, Object... values) {
    add(Problem.Kind.METADATA_DAMAGED, format, values);
  }

  boolean has(Problem.Kind kind) {
    return problems.stream().anyMatch(problem -> problem.kind() == kind);
  }

  List<Problem> problems() {
    return problems;
  }
}

package org.lightledger.map.osm;

import java.util.ArrayList;
import java.util.List;

/** What is wrong with things in a file: counted, and the first of them kept. */
final class Problems {
  /** Lines kept; own choice. */
  private static final int MOST_KEPT = 1000;

  private final List<String> lines = new ArrayList<>();
  private int count;

  void add(String sourceId, String message) {
    count++;
    if (lines.size() < MOST_KEPT) {
      lines.add(sourceId + ": " + message);
    }
  }

  int count() {
    return count;
  }

  List<String> lines() {
    return List.copyOf(lines);
  }
}

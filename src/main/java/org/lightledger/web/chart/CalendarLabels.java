package org.lightledger.web.chart;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.light.LightClass;

/**
 * Finds where the areas of a calendar can hold a word or a letter: for each area of one light, and
 * each third of the year, the cell with the most room to all four sides.
 */
final class CalendarLabels {
  private static final double LETTER_WIDTH = 7;

  private static final double LETTER_HEIGHT = 13;

  /** Labels of one light closer than a quarter of the year and this height are one too many. */
  private static final double REPEATED_PART = 4;

  private static final double REPEATED_DOWN = 60;

  /** A long area is named once in each part of the year. */
  private static final int PARTS = 3;

  /** Half of what a letter takes with a little air; drawing units. */
  private static final double LETTER_ROOM = 7;

  private final Cells cells;
  private final Frame frame;
  private final int[] acrossFrom;
  private final int[] acrossTo;
  private final int[] downFrom;
  private final int[] downTo;

  /** Tells the light of a cell. */
  interface Lights {
    @Nullable LightClass at(int column, int row);
  }

  /** A grid of lights. */
  record Cells(int columns, int rows, Lights lights) {}

  /** Where the grid lies: its corner and the size of a cell, drawing units. */
  record Frame(double left, double top, double cellWidth, double cellHeight) {}

  /** A word or a letter, about its middle. */
  record Label(LightClass light, String text, double x, double y) {}

  CalendarLabels(Cells cells, Frame frame) {
    this.cells = cells;
    this.frame = frame;
    int count = cells.columns() * cells.rows();
    this.acrossFrom = new int[count];
    this.acrossTo = new int[count];
    this.downFrom = new int[count];
    this.downTo = new int[count];
    measure();
  }

  private int index(int column, int row) {
    return column * cells.rows() + row;
  }

  private boolean alike(int column, int row, int otherColumn, int otherRow) {
    return cells.lights().at(column, row) == cells.lights().at(otherColumn, otherRow);
  }

  /** How far each cell's light reaches to either side. */
  private void measure() {
    for (int column = 0; column < cells.columns(); column++) {
      for (int row = 0; row < cells.rows(); row++) {
        int i = index(column, row);
        acrossFrom[i] =
            column > 0 && alike(column, row, column - 1, row)
                ? acrossFrom[index(column - 1, row)]
                : column;
        downFrom[i] =
            row > 0 && alike(column, row, column, row - 1) ? downFrom[index(column, row - 1)] : row;
      }
    }
    for (int column = cells.columns() - 1; column >= 0; column--) {
      for (int row = cells.rows() - 1; row >= 0; row--) {
        int i = index(column, row);
        acrossTo[i] =
            column + 1 < cells.columns() && alike(column, row, column + 1, row)
                ? acrossTo[index(column + 1, row)]
                : column + 1;
        downTo[i] =
            row + 1 < cells.rows() && alike(column, row, column, row + 1)
                ? downTo[index(column, row + 1)]
                : row + 1;
      }
    }
  }

  /** A cell that could hold a label. */
  private record Place(Label label, double room) {}

  List<Label> find() {
    List<Place> places = new ArrayList<>();
    boolean[] seen = new boolean[acrossFrom.length];
    for (int column = 0; column < cells.columns(); column++) {
      for (int row = 0; row < cells.rows(); row++) {
        LightClass light = cells.lights().at(column, row);
        if (!seen[index(column, row)] && light != null) {
          int best = roomiest(column, row, seen);
          if (room(best) >= LETTER_ROOM) {
            places.add(new Place(label(light, best), room(best)));
          }
        }
      }
    }
    places.sort(Comparator.comparingDouble(Place::room).reversed());
    List<Label> labels = new ArrayList<>();
    for (Place place : places) {
      if (labels.stream().noneMatch(label -> inTheWay(label, place.label()))) {
        labels.add(place.label());
      }
    }
    return labels;
  }

  /** Two labels of one light want room between them, others must only not touch. */
  private boolean inTheWay(Label one, Label other) {
    double across = Math.abs(one.x() - other.x());
    double down = Math.abs(one.y() - other.y());
    double letters = (one.text().length() + other.text().length()) * LETTER_WIDTH / 2;
    return one.light() == other.light()
        ? across < cells.columns() * frame.cellWidth() / REPEATED_PART && down < REPEATED_DOWN
        : across < letters + 2 && down < LETTER_HEIGHT;
  }

  /** Walks the area of a cell within its part of the year. */
  private int roomiest(int column, int row, boolean[] seen) {
    Deque<Integer> waiting = new ArrayDeque<>();
    int best = index(column, row);
    seen[best] = true;
    waiting.add(best);
    while (!waiting.isEmpty()) {
      int i = waiting.remove();
      best = room(i) > room(best) ? i : best;
      int c = i / cells.rows();
      int r = i % cells.rows();
      int[][] beside = {{c - 1, r}, {c + 1, r}, {c, r - 1}, {c, r + 1}};
      for (int[] next : beside) {
        boolean inside =
            next[0] >= 0
                && next[0] < cells.columns()
                && next[1] >= 0
                && next[1] < cells.rows()
                && part(next[0]) == part(c);
        if (inside && !seen[index(next[0], next[1])] && alike(c, r, next[0], next[1])) {
          seen[index(next[0], next[1])] = true;
          waiting.add(index(next[0], next[1]));
        }
      }
    }
    return best;
  }

  private int part(int column) {
    return column * PARTS / cells.columns();
  }

  /** How far it is to the nearest side of the area, along the row and along the column. */
  private double room(int i) {
    return Math.min(across(i), down(i));
  }

  private double across(int i) {
    double middle = i / cells.rows() + 0.5;
    return Math.min(middle - acrossFrom[i], acrossTo[i] - middle) * frame.cellWidth();
  }

  private double down(int i) {
    double middle = i % cells.rows() + 0.5;
    return Math.min(middle - downFrom[i], downTo[i] - middle) * frame.cellHeight();
  }

  private Label label(LightClass light, int i) {
    String word = CalendarChart.word(light);
    boolean fits = word.length() * LETTER_WIDTH / 2 + 3 <= across(i);
    return new Label(
        light,
        fits ? word : CalendarChart.letter(light),
        frame.left() + (i / cells.rows() + 0.5) * frame.cellWidth(),
        frame.top() + (i % cells.rows() + 0.5) * frame.cellHeight());
  }
}

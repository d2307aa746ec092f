package org.lightledger.exchange;

import java.time.DateTimeException;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

/**
 * A spot while a file is read. A place that is none makes the feature no spot; of anything else
 * what is wrong is left out and told. Not thread-safe.
 */
public final class SpotDraft {
  /** The longest name and area that are taken over, characters; own choice. */
  public static final int LONGEST_NAME = 10_000;

  /** The longest notes and cautions that are taken over, characters; own choice. */
  public static final int LONGEST_TEXT = 100_000;

  /** The most facings that a spot can have; own choice, one for every degree. */
  public static final int MOST_FACINGS = 360;

  /** How much of a wrong value is shown again, characters. */
  private static final int SHOWN = 40;

  private final List<String> leftOut = new ArrayList<>();
  private final List<ExchangedSpot.Looking> facings = new ArrayList<>();
  private final Set<Trait> traits = EnumSet.noneOf(Trait.class);
  private final Set<Hazard> hazards = EnumSet.noneOf(Hazard.class);
  private @Nullable String name;
  private @Nullable String area;
  private @Nullable GeoPoint position;
  private @Nullable String noPosition;
  private @Nullable ZoneId zone;
  private boolean open;
  private String notes = "";
  private String cautions = "";

  /**
   * Names it. Space around the name is dropped, and a blank name is none.
   *
   * @param text the name, or null
   */
  public void name(@Nullable String text) {
    name = line("name", text);
  }

  /**
   * Whether it has a name.
   *
   * @return true once it was named
   */
  public boolean isNamed() {
    return name != null;
  }

  /**
   * Says to which area it belongs. Space around the words is dropped, and blank words are none.
   *
   * @param text the area, or null
   */
  public void area(@Nullable String text) {
    area = line("area", text);
  }

  /**
   * Says where it is.
   *
   * @param latitudeDeg geodetic latitude, degrees north
   * @param longitudeDeg longitude, degrees east
   */
  public void at(double latitudeDeg, double longitudeDeg) {
    try {
      position = new GeoPoint(latitudeDeg, longitudeDeg);
      noPosition = null;
    } catch (IllegalArgumentException e) {
      noPlace(e.getMessage() + "; is longitude first, or latitude? Nothing is swapped by a guess");
    }
  }

  /**
   * Says why it has no place.
   *
   * @param why what was found and expected
   */
  public void noPlace(String why) {
    position = null;
    noPosition = why;
  }

  /**
   * Says in which zone it is.
   *
   * @param text an identifier such as Europe/Madrid, or null
   */
  public void zone(@Nullable String text) {
    if (text == null || text.isBlank()) {
      return;
    }
    try {
      zone = ZoneId.of(text.strip());
    } catch (DateTimeException e) {
      leaveOut("zone", "expected a time zone such as Europe/Madrid, found " + shown(text));
    }
  }

  /**
   * Says whether any direction works.
   *
   * @param text "true", "false", "1", "0", or null for not said
   */
  public void open(@Nullable String text) {
    switch (text == null ? "" : text.strip()) {
      case "", "false", "0" -> {}
      case "true", "1" -> open = true;
      default -> leaveOut("open", "expected true or false, found " + shown(text));
    }
  }

  /**
   * Adds a facing.
   *
   * @param bearingDeg true bearing, degrees in [0, 360), as text or null
   * @param spreadDeg degrees in [0, 180], as text or null
   */
  public void facing(@Nullable String bearingDeg, @Nullable String spreadDeg) {
    if (facings.size() == MOST_FACINGS) {
      leaveOut("facings", "expected at most " + MOST_FACINGS + ", found more");
      return;
    }
    try {
      facings.add(
          new ExchangedSpot.Looking(
              new Bearing(Numbers.real(bearingDeg)), Numbers.real(spreadDeg)));
    } catch (IllegalArgumentException e) {
      leaveOut("facing", String.valueOf(e.getMessage()));
    }
  }

  /**
   * Adds facings.
   *
   * @param text bearings and spreads as {@link Numbers#facings} writes them, or null
   */
  public void facings(@Nullable String text) {
    if (text == null || text.isBlank()) {
      return;
    }
    for (String facing : text.strip().split("\\s+")) {
      int slash = facing.indexOf('/');
      if (slash < 0) {
        leaveOut("facings", "expected BEARING/SPREAD in degrees, found " + shown(facing));
        return;
      }
      facing(facing.substring(0, slash), facing.substring(slash + 1));
    }
  }

  /**
   * Adds what the place is and has.
   *
   * @param text codes with spaces between them, or null
   */
  public void traits(@Nullable String text) {
    codes("traits", text, code -> traits.add(Trait.parse(code)));
  }

  /**
   * Adds what is dangerous or forbidden at the place.
   *
   * @param text codes with spaces between them, or null
   */
  public void hazards(@Nullable String text) {
    codes("hazards", text, code -> hazards.add(Hazard.parse(code)));
  }

  private void codes(String what, @Nullable String text, Consumer<String> add) {
    if (text == null || text.isBlank()) {
      return;
    }
    for (String code : text.strip().split("[\\s,]+")) {
      try {
        add.accept(shortened(code));
      } catch (IllegalArgumentException e) {
        leaveOut(what, String.valueOf(e.getMessage()));
        return;
      }
    }
  }

  /**
   * Adds the owner's notes.
   *
   * @param text the notes, or null
   */
  public void notes(@Nullable String text) {
    notes = text("notes", text);
  }

  /**
   * Adds cautions.
   *
   * @param text the cautions, or null
   */
  public void cautions(@Nullable String text) {
    cautions = text("cautions", text);
  }

  /**
   * Leaves out something that the file says.
   *
   * @param what which part of the spot
   * @param why what was found and expected
   */
  public void leaveOut(String what, String why) {
    String line = what + " left out: " + why;
    if (!leftOut.contains(line) && leftOut.size() < 10) {
      leftOut.add(line);
    }
  }

  List<String> leftOut() {
    return leftOut;
  }

  ExchangedSpot spot() {
    GeoPoint place = position;
    if (place == null) {
      throw new IllegalArgumentException(
          noPosition == null ? "expected a point, found no position" : noPosition);
    }
    return new ExchangedSpot(
        name, area, place, zone, open, facings, traits, hazards, notes, cautions);
  }

  private @Nullable String line(String what, @Nullable String text) {
    if (text == null || text.isBlank()) {
      return null;
    }
    String stripped = text.strip();
    return isTooLong(what, stripped, LONGEST_NAME) ? null : stripped;
  }

  private String text(String what, @Nullable String text) {
    return text == null || isTooLong(what, text, LONGEST_TEXT) ? "" : text;
  }

  private boolean isTooLong(String what, String text, int most) {
    if (text.length() > most) {
      leaveOut(what, "expected at most " + most + " characters, found " + text.length());
      return true;
    }
    return false;
  }

  private static String shown(@Nullable String text) {
    return "\"" + shortened(String.valueOf(text)) + "\"";
  }

  private static String shortened(String text) {
    return text.length() <= SHOWN ? text : text.substring(0, SHOWN) + "…";
  }
}

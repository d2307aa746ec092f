package org.lightledger.web;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.lightledger.light.LightClass;
import org.lightledger.light.SunCare;
import org.lightledger.spot.Cautions;
import org.lightledger.spot.Hazard;

/** How the owner's pages ask for and tell what is dangerous or forbidden at a spot. */
final class HazardWords {
  private HazardWords() {}

  /** A hazard and what is usually done about it. */
  static List<FieldPage.Advice> advice(Set<Hazard> hazards) {
    return hazards.stream()
        .sorted()
        .map(hazard -> new FieldPage.Advice(Words.capital(hazard.label()), hazard.advice()))
        .toList();
  }

  /** A card's hints: the names of the hazards, and the sun in the picture. */
  static List<String> hints(Set<Hazard> hazards, LightClass light, double apparentAltitudeDeg) {
    List<String> hints = new ArrayList<>();
    if (!hazards.isEmpty()) {
      hints.add(
          Words.capital(
              hazards.stream().sorted().map(Hazard::label).collect(Collectors.joining(", "))));
    }
    if (SunCare.isDue(light, apparentAltitudeDeg)) {
      hints.add(SunCare.WARNING);
    }
    return hints;
  }

  /** The advice and the owner's own words, a line each; "" for nothing to mind. */
  static String lines(Set<Hazard> hazards, String cautions, boolean sunCare) {
    String lines = Cautions.forOwner(hazards, cautions);
    return sunCare ? (SunCare.WARNING + "\n" + lines).strip() : lines;
  }

  static List<AskPage.Choice> choices(Set<Hazard> picked) {
    List<AskPage.Choice> choices = new ArrayList<>();
    for (Hazard hazard : Hazard.values()) {
      choices.add(new AskPage.Choice(hazard.code(), hazard.label(), picked.contains(hazard)));
    }
    return choices;
  }

  /** Reads which hazards are ticked. */
  static Set<Hazard> read(Fields fields) {
    Set<Hazard> hazards = EnumSet.noneOf(Hazard.class);
    for (String code : fields.all("hazard")) {
      try {
        hazards.add(Hazard.parse(code));
      } catch (IllegalArgumentException e) {
        fields.problem("hazard", "To mind", String.valueOf(e.getMessage()));
      }
    }
    return hazards;
  }
}

package org.lightledger.web;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answer;
import org.lightledger.ask.SpotWindows;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.spot.Facing;
import org.lightledger.sun.SunEphemeris;

/** When a spot has a light. */
final class WhenPlan {
  /** So many rows are shown: own choice. */
  private static final int MOST_ROWS = 100;

  private final SunEphemeris sun;

  WhenPlan(SunEphemeris sun) {
    this.sun = sun;
  }

  private record Found(Bearing facing, Answer.Window window) {}

  PlansView.When view(Fields fields, SpotPlans.Place place) {
    boolean used = !fields.all("when-light").isEmpty() || !fields.raw("when-from").isEmpty();
    Set<LightClass> lights = EnumSet.noneOf(LightClass.class);
    List<Found> found = List.of();
    String said = "";
    if (used) {
      lights.addAll(lights(fields));
      SpotPlans.Days days =
          SpotPlans.days(fields, "when-from", "when-to", place.today(), place.today().plusDays(30));
      List<Bearing> facings = facings(fields, place);
      if (!lights.isEmpty() && days != null && !facings.isEmpty()) {
        found = windows(place, facings, lights, days);
        said = said(found.size(), lights, days);
      }
    }
    List<AskPage.Choice> choices = new ArrayList<>();
    for (LightClass light : LightClass.values()) {
      choices.add(new AskPage.Choice(light.code(), light.label(), lights.contains(light)));
    }
    String from = fields.raw("when-from");
    String to = fields.raw("when-to");
    return new PlansView.When(
        used,
        choices,
        from.isEmpty() ? place.today().toString() : from,
        to.isEmpty() ? place.today().plusDays(30).toString() : to,
        fields.raw("when-facing"),
        found.stream().limit(MOST_ROWS).map(WhenPlan::row).toList(),
        said);
  }

  private static Set<LightClass> lights(Fields fields) {
    Set<LightClass> lights = EnumSet.noneOf(LightClass.class);
    for (String code : fields.all("when-light")) {
      LightClass light = fields.light("when-light", "Light", code);
      if (light != null) {
        lights.add(light);
      }
    }
    if (fields.all("when-light").isEmpty()) {
      fields.problem("when-light", "Light", "expected at least one light, found none");
    }
    return lights;
  }

  private static List<Bearing> facings(Fields fields, SpotPlans.Place place) {
    @Nullable Bearing chosen = SpotPlans.bearing(fields, "when-facing", "Looking");
    if (chosen != null) {
      return List.of(chosen);
    }
    List<Bearing> known = place.spot().facings().stream().map(Facing::bearing).toList();
    if (known.isEmpty() && fields.raw("when-facing").isEmpty()) {
      fields.problem(
          "when-facing",
          "Looking",
          "expected degrees from north such as 245, for no facing of this spot is known, found"
              + " nothing");
    }
    return fields.raw("when-facing").isEmpty() ? known : List.of();
  }

  private List<Found> windows(
      SpotPlans.Place place, List<Bearing> facings, Set<LightClass> lights, SpotPlans.Days days) {
    List<Found> found = new ArrayList<>();
    for (Bearing facing : facings) {
      SpotWindows.of(
              sun,
              place.spot().position(),
              place.zone(),
              facing,
              place.skyline(),
              lights,
              days.first(),
              days.last())
          .forEach(window -> found.add(new Found(facing, window)));
    }
    found.sort(Comparator.comparing(one -> one.window().from()));
    return found;
  }

  private static String said(int found, Set<LightClass> lights, SpotPlans.Days days) {
    String light = AskTerms.joined(lights.stream().map(LightClass::label).toList(), "or");
    String stretch = Words.days(days.first(), days.last());
    if (found == 0) {
      return "Never " + light + ", " + stretch + ".";
    }
    return Words.capital(light)
        + ", "
        + stretch
        + ": "
        + Words.count(found, "window", "windows")
        + "."
        + (found > MOST_ROWS
            ? " The first " + MOST_ROWS + " are shown; choose fewer days to see the others."
            : "");
  }

  private static PlansView.Window row(Found found) {
    Answer.Window window = found.window();
    return new PlansView.Window(
        Words.day(window.from().toLocalDate()),
        Words.window(window.from(), window.to()),
        Duration.between(window.from(), window.to()).toMinutes() + " min",
        Words.bearing(found.facing()));
  }
}

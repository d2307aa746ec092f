package org.lightledger.ask;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.light.LightRules;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SunDirection;

/** Looks for the wanted light at one spot. */
final class CandidateFinder {
  private final Set<LightClass> wanted;
  private final Terms terms;
  private final MomentTable moments;

  CandidateFinder(Question question, MomentTable moments) {
    this.wanted = question.lights();
    this.terms = question.terms();
    this.moments = moments;
  }

  /** What stands around the spot, and whether the sun is to reach it. */
  private record Search(@Nullable Skyline skyline, Terms.SunWanted sunWanted) {
    boolean sunFits(@Nullable Boolean directSun) {
      return switch (sunWanted) {
        case EITHER -> true;
        case DIRECT -> Boolean.TRUE.equals(directSun);
        case SHADE -> Boolean.FALSE.equals(directSun);
      };
    }
  }

  /** What was found at one spot: candidates, or why the question can not be answered. */
  record Found(List<Candidate> candidates, @Nullable String notKnown) {}

  /**
   * Whether the spot may have the light, whatever its skyline: that can only turn the light of a
   * sun above the horizon into open shade.
   */
  boolean possible(Spot spot) {
    return terms.sky() == Sky.CLEAR
        && (wanted.contains(LightClass.OPEN_SHADE)
            || !at(spot, new Search(null, Terms.SunWanted.EITHER)).candidates().isEmpty());
  }

  Found at(Spot spot, @Nullable Skyline skyline) {
    Found found = at(spot, new Search(skyline, terms.sun()));
    if (found.candidates().isEmpty()
        && found.notKnown() == null
        && terms.sun() != Terms.SunWanted.EITHER
        && at(spot, new Search(skyline, Terms.SunWanted.EITHER)).candidates().stream()
            .anyMatch(candidate -> candidate.light().directSun() == null)) {
      return new Found(
          List.of(),
          "The light would fit, but whether the sun reaches this spot then is not known.");
    }
    return found;
  }

  private Found at(Spot spot, Search search) {
    if (spot.zone() == null) {
      return new Found(
          List.of(),
          "The zone of this place is not known, so no local hour can be told; set it on the"
              + " spot's page.");
    }
    List<DayMoments> days = moments.of(spot.position(), spot.zone());
    List<Candidate> candidates = new ArrayList<>();
    if (spot.open() || spot.facings().isEmpty()) {
      Answer.FacingBasis basis =
          spot.open() ? Answer.FacingBasis.OPEN : Answer.FacingBasis.SUGGESTED;
      wanted.stream()
          .map(
              light ->
                  best(spot, search, basis, days, Set.of(light), sun -> inTheMiddleOf(light, sun)))
          .flatMap(Optional::stream)
          .max(Comparator.comparingDouble(candidate -> candidate.light().marginDeg()))
          .ifPresent(candidates::add);
    } else {
      for (Facing facing : spot.facings()) {
        best(spot, search, Answer.FacingBasis.KNOWN, days, wanted, sun -> facing.bearing())
            .ifPresent(candidates::add);
      }
    }
    String notKnown =
        candidates.isEmpty() && wanted.contains(LightClass.OPEN_SHADE) && !told(search, spot, days)
            ? "Open shade takes a skyline, and none is known for this spot and hour yet."
            : null;
    return new Found(candidates, notKnown);
  }

  /**
   * The windows of the wanted lights along a candidate's facing, as far as they reach into the
   * asked hours. One that comes and goes between two asked moments is not seen. Where any direction
   * works, the facing belongs to the candidate's moment, and so only the window around it counts.
   */
  List<Run> runs(Candidate candidate, WindowFinder windows) {
    Spot spot = candidate.spot();
    WindowFinder.View view = candidate.view(terms.sky());
    List<Run> runs = new ArrayList<>();
    for (DayMoments day : moments.of(spot.position(), view.zone())) {
      List<DayMoments.Moment> asked = day.moments();
      int next = 0;
      while (next < asked.size()) {
        List<Candidate> row = row(candidate, asked, next, windows, view);
        if (!row.isEmpty()) {
          runs.add(run(row, asked, next, windows, view));
        }
        next += Math.max(1, row.size());
      }
    }
    return candidate.basis() == Answer.FacingBasis.KNOWN
        ? runs
        : runs.stream().filter(run -> holds(run, candidate)).toList();
  }

  private static boolean holds(Run run, Candidate candidate) {
    return run.moments().stream().anyMatch(moment -> moment.instant().equals(candidate.instant()));
  }

  /** The asked moments in a row that lie in one window of a wanted light, from one of them on. */
  private List<Candidate> row(
      Candidate candidate,
      List<DayMoments.Moment> asked,
      int first,
      WindowFinder windows,
      WindowFinder.View view) {
    List<Candidate> row = new ArrayList<>();
    for (int i = first; i < asked.size(); i++) {
      Candidate there = fitting(candidate, asked.get(i));
      if (there == null
          || !row.isEmpty() && !inOneWindow(row.get(row.size() - 1), there, windows, view)) {
        return row;
      }
      row.add(there);
    }
    return row;
  }

  /** Without a skyline no light comes and goes between two asked moments. */
  private static boolean inOneWindow(
      Candidate one, Candidate next, WindowFinder windows, WindowFinder.View view) {
    return one.light().light() == next.light().light()
        && (view.skyline() == null
            || windows.lastLike(one.instant(), next.instant(), view).equals(next.instant()));
  }

  private @Nullable Candidate fitting(Candidate candidate, DayMoments.Moment moment) {
    Search search = new Search(candidate.skyline(), terms.sun());
    SunDirection sun = moment.subsolar().from(candidate.spot().position());
    Bearing facing = candidate.facing();
    if (!wanted.contains(SpotLight.classOf(sun, facing, search.skyline(), terms.sky()))) {
      return null;
    }
    SpotLight light = light(sun, facing, search);
    return search.sunFits(light.directSun()) ? candidate.at(moment.instant(), sun, light) : null;
  }

  private static Run run(
      List<Candidate> row,
      List<DayMoments.Moment> asked,
      int first,
      WindowFinder windows,
      WindowFinder.View view) {
    int after = first + row.size();
    Instant from = row.get(0).instant();
    Instant to = row.get(row.size() - 1).instant();
    return new Run(
        row,
        first == 0 ? from : windows.lastLike(from, asked.get(first - 1).instant(), view),
        after == asked.size() ? to : windows.lastLike(to, asked.get(after).instant(), view));
  }

  /** Whether the skyline tells of every moment with the sun up whether it is hidden. */
  private boolean told(Search search, Spot spot, List<DayMoments> days) {
    for (DayMoments day : days) {
      for (DayMoments.Moment moment : day.moments()) {
        SunDirection sun = moment.subsolar().from(spot.position());
        if (light(sun, sun.azimuth(), search).directSun() == null) {
          return false;
        }
      }
    }
    return true;
  }

  private Optional<Candidate> best(
      Spot spot,
      Search search,
      Answer.FacingBasis basis,
      List<DayMoments> days,
      Set<LightClass> lights,
      Function<SunDirection, Bearing> facingAt) {
    Candidate best = null;
    int daysWithLight = 0;
    for (DayMoments day : days) {
      boolean found = false;
      for (DayMoments.Moment moment : day.moments()) {
        SunDirection sun = moment.subsolar().from(spot.position());
        Bearing facing = facingAt.apply(sun);
        if (lights.contains(SpotLight.classOf(sun, facing, search.skyline(), terms.sky()))) {
          SpotLight light = light(sun, facing, search);
          if (search.sunFits(light.directSun())) {
            found = true;
            if (best == null || light.marginDeg() > best.light().marginDeg()) {
              best =
                  new Candidate(
                      spot, facing, basis, moment.instant(), sun, light, search.skyline(), 0);
            }
          }
        }
      }
      daysWithLight += found ? 1 : 0;
    }
    return best == null ? Optional.empty() : Optional.of(best.onDays(daysWithLight));
  }

  private SpotLight light(SunDirection sun, Bearing facing, Search search) {
    return SpotLight.of(sun, facing, search.skyline(), terms.sky());
  }

  /** The facing that puts the sun into the middle of a class, to the right of the line of view. */
  private static Bearing inTheMiddleOf(LightClass light, SunDirection sun) {
    return Bearing.of(sun.azimuth().trueDeg() - idealTurnDeg(light));
  }

  private static double idealTurnDeg(LightClass light) {
    return switch (light) {
      case RIM -> (LightRules.BACKLIT_UP_TO_DEG + LightRules.RIM_UP_TO_DEG) / 2;
      case SIDE -> (LightRules.RIM_UP_TO_DEG + LightRules.SIDE_UP_TO_DEG) / 2;
      case THREE_QUARTER_FRONT ->
          (LightRules.SIDE_UP_TO_DEG + LightRules.THREE_QUARTER_FRONT_UP_TO_DEG) / 2;
      case FRONT -> 180;
      case BACKLIT, OVERHEAD, OPEN_SHADE, TWILIGHT, DARK -> 0;
    };
  }
}

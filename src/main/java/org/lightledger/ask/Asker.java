package org.lightledger.ask;

import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.sun.SunCurve;
import org.lightledger.sun.SunEphemeris;

/** Answers questions about light. Safe for use by several threads. */
public final class Asker {
  /** So many spots are looked at together, which bounds the skylines in memory. */
  private static final int PART = 4096;

  private final SunEphemeris sun;

  /**
   * An asker.
   *
   * @param sun knows where the sun is
   */
  public Asker(SunEphemeris sun) {
    this.sun = sun;
  }

  /**
   * Answers a question.
   *
   * @param question the question
   * @param stock the spots it is put to
   * @param most how many matches, suggestions and unanswered spots to return at most, 1 or more
   * @return the answers, best first
   */
  public Answers ask(Question question, Stock stock, int most) {
    if (most < 1) {
      throw new IllegalArgumentException("expected to return at least 1 answer, found " + most);
    }
    List<Spot> spots = spots(question, stock);
    SunCurve curve = curveOver(question);
    MomentTable moments = new MomentTable(question, curve);
    CandidateFinder finder = new CandidateFinder(question, moments);
    List<Candidate> known = new ArrayList<>();
    List<Candidate> suggested = new ArrayList<>();
    List<Answers.NotKnown> unanswered = new ArrayList<>();
    List<CandidateFinder.Found> found = new ArrayList<>(spots.size());
    Set<Long> withSkyline = stock.spotsWithSkyline();
    for (int from = 0; from < spots.size(); from += PART) {
      List<Spot> part = spots.subList(from, Math.min(from + PART, spots.size()));
      Map<Long, Skyline> skylines = skylines(part, withSkyline, finder, stock);
      part.parallelStream()
          .map(spot -> finder.at(spot, skylines.get(spot.id())))
          .forEachOrdered(found::add);
    }
    for (int i = 0; i < found.size(); i++) {
      for (Candidate candidate : found.get(i).candidates()) {
        (candidate.basis() == Answer.FacingBasis.SUGGESTED ? suggested : known).add(candidate);
      }
      String notKnown = found.get(i).notKnown();
      if (notKnown != null) {
        unanswered.add(new Answers.NotKnown(spots.get(i), notKnown));
      }
    }
    AskedWindows windows = new AskedWindows(question, finder, curve);
    List<Candidate> lasting = windows.lasting(known);
    List<Candidate> lastingSuggested = windows.lasting(suggested);
    return new Answers(
        question,
        best(lasting, stock, most, windows),
        lasting.size(),
        best(lastingSuggested, stock, most, windows),
        lastingSuggested.size(),
        unanswered.subList(0, Math.min(most, unanswered.size())),
        unanswered.size(),
        spots.size(),
        !known.isEmpty() || !suggested.isEmpty() || hoursExist(spots, moments),
        known.isEmpty() && suggested.isEmpty() ? SunDown.of(spots, moments, curve) : null);
  }

  /** Whether there is an asked moment anywhere; of spots without a zone nobody knows. */
  private static boolean hoursExist(List<Spot> spots, MomentTable moments) {
    boolean asked = false;
    for (Spot spot : spots) {
      ZoneId zone = spot.zone();
      if (zone != null) {
        asked = true;
        if (moments.of(spot.position(), zone).stream().anyMatch(day -> !day.moments().isEmpty())) {
          return true;
        }
      }
    }
    return !asked;
  }

  private static List<Spot> spots(Question question, Stock stock) {
    List<Spot> near = stock.spots(question.near());
    Shape shape = question.terms().shape();
    Set<Trait> traits = question.terms().traits();
    if (shape == null && traits.isEmpty()) {
      return near;
    }
    Set<Long> fitting = traits.isEmpty() ? Set.of() : stock.spotsWith(traits);
    return near.stream()
        .filter(spot -> traits.isEmpty() || fitting.contains(spot.id()))
        .filter(spot -> shape == null || shape.holds(spot.position()))
        .toList();
  }

  /** Only of spots where it can matter, for a skyline is large. */
  private static Map<Long, Skyline> skylines(
      List<Spot> spots, Set<Long> withSkyline, CandidateFinder finder, Stock stock) {
    if (withSkyline.isEmpty()) {
      return Map.of();
    }
    List<Long> wanted =
        spots.parallelStream()
            .filter(spot -> withSkyline.contains(spot.id()) && finder.possible(spot))
            .map(Spot::id)
            .toList();
    return wanted.isEmpty() ? Map.of() : stock.skylines(wanted);
  }

  /** The sun over all local days of the question, wherever on earth, and their neighbours. */
  private SunCurve curveOver(Question question) {
    return SunCurve.of(
        sun,
        question.firstDay().minusDays(3).atStartOfDay(ZoneOffset.UTC).toInstant(),
        question.lastDay().plusDays(4).atStartOfDay(ZoneOffset.UTC).toInstant());
  }

  private static List<Answer> best(
      List<Candidate> candidates, Stock stock, int most, AskedWindows windows) {
    Map<Long, List<Observation>> observations =
        candidates.isEmpty()
            ? Map.of()
            : stock.observations(
                candidates.stream().map(candidate -> candidate.spot().id()).distinct().toList());
    return candidates.parallelStream()
        .map(
            candidate ->
                windows.ranked(
                    candidate, observations.getOrDefault(candidate.spot().id(), List.of())))
        .sorted(Ranked.BEST_FIRST)
        .limit(most)
        .map(windows::answer)
        .toList();
  }
}

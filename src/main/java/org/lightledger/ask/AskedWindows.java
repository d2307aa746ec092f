package org.lightledger.ask;

import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import org.lightledger.spot.Observation;
import org.lightledger.sun.SunEphemeris;

/**
 * Which windows of the candidates count for a question. Where hours are asked for, each window of a
 * candidate is looked at; where a single moment of the day is, the candidate's own is the one.
 */
final class AskedWindows {
  private final Question question;
  private final CandidateFinder finder;
  private final WindowFinder windows;

  AskedWindows(Question question, CandidateFinder finder, SunEphemeris sun) {
    this.question = question;
    this.finder = finder;
    this.windows = new WindowFinder(sun);
  }

  /** Those whose light lasts as long as it is to. */
  List<Candidate> lasting(List<Candidate> candidates) {
    if (question.terms().atLeast().isZero()) {
      return candidates;
    }
    return candidates.parallelStream()
        .filter(
            candidate ->
                question.time().isRange()
                    ? runs(candidate).findAny().isPresent()
                    : lasts(candidate))
        .toList();
  }

  /** The candidate at its most useful moment, with the evidence for it. */
  Ranked ranked(Candidate candidate, List<Observation> observations) {
    return question.time().isRange()
        ? Ranked.of(runs(candidate).toList(), observations)
        : Ranked.of(candidate, observations);
  }

  Answer answer(Ranked ranked) {
    return ranked.answer(windows, question.terms().sky());
  }

  private Stream<Run> runs(Candidate candidate) {
    Stream<Run> runs = finder.runs(candidate, windows).stream();
    return question.terms().atLeast().isZero()
        ? runs
        : runs.filter(run -> lasts(run.moments().get(0)));
  }

  private boolean lasts(Candidate candidate) {
    Answer.Window window =
        windows.around(candidate.instant(), candidate.view(question.terms().sky()));
    return Duration.between(window.from(), window.to()).compareTo(question.terms().atLeast()) >= 0;
  }
}

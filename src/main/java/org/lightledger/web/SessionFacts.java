package org.lightledger.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.lightledger.session.Client;
import org.lightledger.session.Session;
import org.lightledger.session.SessionHours;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.CalendarKeeping;
import org.lightledger.studio.Studio;

/** What the page of a session says of it first: when, what, what the client wrote, what to mind. */
final class SessionFacts {
  private final Studio studio;
  private final CalendarKeeping calendar;
  private final SessionDoubts doubts;

  SessionFacts(Studio studio, CalendarKeeping calendar) {
    this.studio = studio;
    this.calendar = calendar;
    this.doubts = new SessionDoubts(studio);
  }

  List<SessionPage.Fact> of(
      LedgerSession session, Session booked, Client client, Optional<SessionHours> hours) {
    List<SessionPage.Fact> facts = new ArrayList<>();
    add(
        facts,
        "When",
        hours
            .map(SessionWords::hours)
            .orElse("hours not known: the ledger has no spots yet to tell the sun for"));
    add(facts, "Fixed by", SessionWords.anchor(booked.anchor()));
    hours.ifPresent(known -> add(facts, "Sun", SessionWords.evening(known.sun())));
    add(
        facts,
        "Mind",
        hours.map(known -> doubts.words(session, booked, known)).map(Words::capital).orElse(""));
    add(
        facts,
        "Calendar",
        calendar.isBehind(session, booked)
            ? "yours has what was planned before: take the calendar file again"
            : "");
    add(facts, "Clocks", clocks(session, booked));
    add(facts, "Booked", SessionWords.terms(booked.terms()));
    Client.Guardian guardian = client.guardian();
    if (client.minor() && guardian != null) {
      add(facts, "Guardian", guardian.name());
    }
    add(facts, client.calledName() + " wrote", written(session, booked));
    return facts;
  }

  private static void add(List<SessionPage.Fact> facts, String label, String words) {
    if (!words.isEmpty()) {
      facts.add(new SessionPage.Fact(label, words));
    }
  }

  /** Whose clocks its times are on, and which of its spots have others. */
  private String clocks(LedgerSession session, Session booked) {
    String zone =
        booked.isZoneKnown()
            ? booked.zone().getId()
            : "not known yet: add the spots that it may stop at";
    List<Spot> others = studio.onOtherClocks(session, booked);
    return others.isEmpty()
        ? zone
        : zone
            + ". Mind that not all of its spots keep these clocks: "
            + others.stream()
                .map(spot -> spot.name() + " has " + spot.zone())
                .collect(Collectors.joining(", "));
  }

  /** What came back besides answers to the questions, which have their own place. */
  private static String written(LedgerSession session, Session booked) {
    List<String> words = new ArrayList<>();
    int outfits = 0;
    for (Share share : session.shares().of(ShareSubject.session(booked.id()))) {
      Returned returned = session.replies().of(share.id());
      outfits += returned.outfits().size();
      if (!returned.words().isBlank()) {
        words.add(returned.words().strip());
      }
    }
    if (outfits > 0) {
      words.add(Words.count(outfits, "picture", "pictures") + " of outfits, under Share");
    }
    return String.join("; ", words);
  }
}

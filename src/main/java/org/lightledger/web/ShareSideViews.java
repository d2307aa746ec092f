package org.lightledger.web;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.session.Answer;
import org.lightledger.session.Client;
import org.lightledger.session.Session;
import org.lightledger.share.OpenLinks;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;

/** Turns shares, and what came back through them, into what the owner's pages show. */
final class ShareSideViews {
  private ShareSideViews() {}

  static ShareSide side(House house, LedgerSession session, ShareSubject subject, String address) {
    List<AskPage.Choice> clients =
        subject.isSession()
            ? List.of()
            : session.clients().all().stream()
                .map(
                    client -> new AskPage.Choice(String.valueOf(client.id()), client.name(), false))
                .toList();
    return new ShareSide(
        href(subject),
        subject.isSession(),
        subject.isSession() && session.plans().find(subject.id()).isPresent(),
        OpenLinks.isReachable(address),
        clients,
        session.shares().of(subject).stream()
            .map(share -> given(house, session, share, address))
            .toList());
  }

  private static String href(ShareSubject subject) {
    return (subject.isSession() ? "/sessions/" : "/shortlists/") + subject.id();
  }

  static ShareSide.Given given(House house, LedgerSession session, Share share, String address) {
    ZoneId zone = ShareReader.zone(house, session, share);
    Share.State state = share.stateAt(house.clock().instant());
    Instant expires = share.terms().expiresAt();
    return new ShareSide.Given(
        share.id(),
        title(session, share),
        href(share.subject()) + (share.subject().isSession() ? "/share" : "#share"),
        share.terms().asFile() ? "" : OpenLinks.address(share, address),
        state == Share.State.OPEN,
        switch (state) {
          case OPEN ->
              (share.terms().asFile() ? "file, answers are taken" : "works")
                  + (expires == null
                      ? " until revoked"
                      : " until " + Words.day(expires.atZone(zone).toLocalDate()));
          case EXPIRED -> "expired";
          case REVOKED -> "revoked";
        },
        shows(session, share),
        share.terms().asFile() ? "" : seen(share.seen(), zone),
        back(session, share, zone));
  }

  static String title(LedgerSession session, Share share) {
    Session booked = ShareReader.session(session, share);
    if (booked != null) {
      return SessionWords.title(SessionPages.client(session, booked.clientId()), booked);
    }
    return session
        .shortlists()
        .find(share.subject().id())
        .map(Shortlist::title)
        .orElse("a shortlist that is gone");
  }

  private static String shows(LedgerSession session, Share share) {
    List<String> shows = new ArrayList<>();
    if (share.subject().isSession()) {
      if (share.terms().plan()) {
        shows.add("the plan");
      }
      if (share.terms().questions()) {
        shows.add("the questions");
      }
    }
    shows.add(share.terms().exactPositions() ? "exact places shown" : "places not shown");
    Long clientId = share.terms().clientId();
    if (clientId != null) {
      session.clients().find(clientId).map(Client::name).ifPresent(n -> shows.add("for " + n));
    }
    return String.join(", ", shows);
  }

  private static String seen(Share.Seen seen, ZoneId zone) {
    Instant first = seen.first();
    Instant last = seen.last();
    if (first == null || last == null) {
      return "not opened yet";
    }
    String words = "last opened " + moment(last, zone);
    return seen.count() > 1
        ? words + ", " + seen.count() + " times since " + moment(first, zone)
        : words;
  }

  private static ShareSide.Back back(LedgerSession session, Share share, ZoneId zone) {
    Returned returned = session.replies().of(share.id());
    List<ShareSide.Pick> picks =
        returned.picks().stream()
            .map(
                pick ->
                    new ShareSide.Pick(
                        "/spots/" + pick.spotId(),
                        session.spots().find(pick.spotId()).map(Spot::name).orElse("a spot"),
                        pick.favourite(),
                        pick.words()))
            .toList();
    Instant replied = share.repliedAt();
    return new ShareSide.Back(
        replied == null ? "" : moment(replied, zone),
        share.hasNews(),
        picks,
        returned.words(),
        share.subject().isSession() && share.terms().questions()
            ? told(session.questionnaire().answers(share.subject().id()))
            : List.of(),
        returned.outfits().stream()
            .map(
                outfit ->
                    new ShareSide.Picture(
                        "/shares/" + share.id() + "/outfits/" + outfit.id(),
                        moment(outfit.sentAt(), zone),
                        "/shares/" + share.id() + "/outfits/" + outfit.id() + "/remove"))
            .toList());
  }

  private static List<ShareSide.Told> told(List<Answer> answers) {
    return answers.stream()
        .filter(Answer::byClient)
        .map(
            answer ->
                new ShareSide.Told(
                    answer.asked(),
                    answer.places().stream()
                        .sorted()
                        .map(Trait::label)
                        .collect(Collectors.joining(", ")),
                    answer.words()))
        .toList();
  }

  private static String moment(Instant instant, ZoneId zone) {
    return Words.moment(instant.atZone(zone).toOffsetDateTime());
  }
}

package org.lightledger.web;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Answer;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.share.Reply;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Returned;
import org.lightledger.share.Said;
import org.lightledger.share.Share;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.StudioPlace;

/**
 * Takes in what a client sends back. Whatever it says, nothing but the answers of its own share can
 * change: names that the share's page does not show are passed over.
 */
public final class ReplyDesk {
  /** How far a client's clock may be ahead: own choice, more than any zone set wrong. */
  private static final Duration MOST_AHEAD = Duration.ofDays(1);

  private ReplyDesk() {}

  /**
   * Takes in a returned file.
   *
   * @param session the ledger, for writing
   * @param content the file's text
   * @param now the present
   * @return the share it belongs to
   * @throws IllegalArgumentException when it is no reply, was changed, belongs to another share,
   *     was saved before one that was taken in, or came after the share was revoked or the session
   *     was over
   */
  public static Share takeFile(LedgerSession session, String content, Instant now) {
    ReplyFile file = ReplyFile.parse(content);
    Share share =
        session
            .shares()
            .named(file.keyId())
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "expected the reply to a share of this ledger, found one to another; open"
                            + " the ledger that made the page"));
    Reply reply = file.reply(share.keys());
    if (share.stateAt(now) == Share.State.REVOKED) {
      throw new IllegalArgumentException(
          "expected the reply to a share that stands, found one to share "
              + share.id()
              + ", which you took back; make a new one if the client should answer");
    }
    Instant saved = believed(reply.savedAt(), now);
    if (saved != null) {
      requireNewest(session, share, saved);
      session.replies().noteSaved(share.id(), saved);
    }
    take(session, share, reply, now);
    return share;
  }

  /** A clock that is far ahead would keep every file of a right one out. */
  private static @Nullable Instant believed(@Nullable Instant saved, Instant now) {
    return saved == null || saved.isAfter(now.plus(MOST_AHEAD)) ? null : saved;
  }

  private static void requireNewest(LedgerSession session, Share share, Instant saved) {
    Instant last = session.replies().savedAt(share.id()).orElse(Instant.MIN);
    if (saved.isBefore(last)) {
      Session booked = ShareReader.session(session, share);
      ZoneId zone = booked == null ? StudioPlace.zone(session.spots().all()) : booked.zone();
      throw new IllegalArgumentException(
          "expected the newest file that the client saved, which is the one of "
              + Words.moment(last.atZone(zone).toOffsetDateTime())
              + " or a later one, found one that was saved before it, "
              + Words.moment(saved.atZone(zone).toOffsetDateTime())
              + "; nothing was changed. If it is to count, ask the client to save and send it anew");
    }
  }

  /**
   * Keeps what a reply to a share changes: picks, words and answers.
   *
   * @return the fields of the client's page whose words became others meanwhile, and were kept
   */
  static Set<String> take(LedgerSession session, Share share, Reply reply, Instant now) {
    Session booked = ShareReader.session(session, share);
    if (booked != null && !booked.state().isOpen()) {
      throw new IllegalArgumentException(
          "expected the reply to a session that is to come, found one that is "
              + booked.state().label()
              + "; nothing was changed");
    }
    Returned kept = session.replies().of(share.id());
    Set<String> clashes = new HashSet<>();
    List<Returned.Pick> picks = picks(session, share, reply, kept, clashes);
    String words = onto(reply.words(), kept.words(), "words", clashes);
    session.replies().keep(share.id(), picks, words, now);
    if (booked != null && share.terms().questions()) {
      answers(session, share, booked, reply, now, clashes);
    }
    return clashes;
  }

  private static String onto(Said said, String kept, String field, Set<String> clashes) {
    if (said.clashesWith(kept)) {
      clashes.add(field);
    }
    return said.onto(kept);
  }

  /** What is said of the spots that the share shows; what was said of others stays. */
  private static List<Returned.Pick> picks(
      LedgerSession session, Share share, Reply reply, Returned kept, Set<String> clashes) {
    Said unnamed = reply.whole() ? Said.anew("") : Said.nothing();
    List<Returned.Pick> picks = new ArrayList<>();
    for (long spotId : spots(session, share)) {
      String key = share.keys().spot(spotId);
      Returned.Pick was = kept.pick(spotId);
      Set<String> marked =
          was != null && was.favourite() && !reply.whole() ? Set.of(key) : Set.of();
      picks.add(
          new Returned.Pick(
              spotId,
              reply.favourites().onto(marked).contains(key),
              onto(
                  reply.comments().getOrDefault(key, unnamed),
                  was == null ? "" : was.words(),
                  "comment-" + key,
                  clashes)));
    }
    return picks;
  }

  /** The spots that the share's page shows, each once. */
  static List<Long> spots(LedgerSession session, Share share) {
    long id = share.subject().id();
    if (!share.subject().isSession()) {
      return session
          .shortlists()
          .find(id)
          .map(list -> list.entries().stream().map(Shortlist.Entry::spotId).distinct().toList())
          .orElseThrow(() -> new IllegalStateException("a share of a shortlist has its shortlist"));
    }
    return share.terms().plan()
        ? session
            .plans()
            .find(id)
            .map(plan -> plan.stops().stream().map(KeptPlan.Stop::spotId).distinct().toList())
            .orElse(List.of())
        : List.of();
  }

  /**
   * What is as it was keeps its time; what the owner typed in is not emptied by the client, and
   * what the owner made of a client's answer is no more replaced from a page that showed that one.
   */
  private static void answers(
      LedgerSession session,
      Share share,
      Session booked,
      Reply reply,
      Instant now,
      Set<String> clashes) {
    Map<Long, Answer> own =
        session.questionnaire().answers(booked.id()).stream()
            .filter(Answer::byClient)
            .collect(Collectors.toMap(Answer::questionId, Function.identity()));
    for (ClientQuestion question : session.questionnaire().questions()) {
      String key = share.keys().question(question.id());
      Reply.Answered answered = reply.answers().get(key);
      if (answered == null) {
        continue;
      }
      if (!own.containsKey(question.id()) && answered.changesAnother()) {
        clashes.add("answer-" + key);
        continue;
      }
      Answer was = own.getOrDefault(question.id(), nothing(question, now));
      String words = onto(answered.words(), was.words(), "answer-" + key, clashes);
      boolean asksPlaces = question.kind() == ClientQuestion.Kind.PLACES;
      Set<Trait> places = asksPlaces ? answered.places().onto(was.places()) : was.places();
      if (words.equals(was.words()) && places.equals(was.places())) {
        continue;
      }
      if (words.isEmpty() && (places.isEmpty() || !asksPlaces)) {
        session.questionnaire().removeAnswer(booked.id(), question.id());
      } else {
        session
            .questionnaire()
            .answer(
                booked.id(), new Answer(question.id(), question.words(), words, places, now, true));
      }
    }
  }

  private static Answer nothing(ClientQuestion question, Instant now) {
    return new Answer(question.id(), question.words(), "", Set.of(), now, true);
  }
}

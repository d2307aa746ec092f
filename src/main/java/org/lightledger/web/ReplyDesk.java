package org.lightledger.web;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.lightledger.session.Answer;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.share.Reply;
import org.lightledger.share.ReplyFile;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.store.LedgerSession;

/**
 * Takes in what a client sends back. Whatever it says, nothing but the answers of its own share can
 * change: names that the share's page does not show are passed over.
 */
public final class ReplyDesk {
  private ReplyDesk() {}

  /**
   * Takes in a returned file.
   *
   * @param session the ledger, for writing
   * @param content the file's text
   * @param now the present
   * @return the share it belongs to
   * @throws IllegalArgumentException when it is no reply, was changed, belongs to another share, or
   *     came after the share was revoked or the session was over
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
    take(session, share, reply, now);
    return share;
  }

  /** Keeps a reply to a share: picks, words and answers. */
  static void take(LedgerSession session, Share share, Reply reply, Instant now) {
    Session booked = ShareReader.session(session, share);
    if (booked != null && !booked.state().isOpen()) {
      throw new IllegalArgumentException(
          "expected the reply to a session that is to come, found one that is "
              + booked.state().label()
              + "; nothing was changed");
    }
    session.replies().keep(share.id(), picks(session, share, reply), reply.words(), now);
    if (booked != null && share.terms().questions()) {
      answers(session, share, booked, reply, now);
    }
  }

  private static List<Returned.Pick> picks(LedgerSession session, Share share, Reply reply) {
    List<Returned.Pick> picks = new ArrayList<>();
    for (long spotId : spots(session, share)) {
      String key = share.keys().spot(spotId);
      boolean favourite = reply.favourites().contains(key);
      String words = reply.comments().getOrDefault(key, "");
      if (favourite || !words.isEmpty()) {
        picks.add(new Returned.Pick(spotId, favourite, words));
      }
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

  /** What is as it was keeps its time; what the owner typed in is not emptied by the client. */
  private static void answers(
      LedgerSession session, Share share, Session booked, Reply reply, Instant now) {
    Map<Long, Answer> before = new HashMap<>();
    session.questionnaire().answers(booked.id()).forEach(a -> before.put(a.questionId(), a));
    for (ClientQuestion question : session.questionnaire().questions()) {
      Reply.Answered answered = reply.answers().get(share.keys().question(question.id()));
      if (answered == null) {
        continue;
      }
      Answer any = before.get(question.id());
      Answer was = any != null && any.byClient() ? any : null;
      if (answered.isEmpty()) {
        if (was != null) {
          session.questionnaire().removeAnswer(booked.id(), question.id());
        }
      } else if (was == null
          || !was.words().equals(answered.words())
          || !was.places().equals(answered.places())) {
        boolean asksPlaces = question.kind() == ClientQuestion.Kind.PLACES;
        session
            .questionnaire()
            .answer(
                booked.id(),
                new Answer(
                    question.id(),
                    question.words(),
                    answered.words(),
                    asksPlaces ? answered.places() : Set.of(),
                    now,
                    true));
      }
    }
  }
}

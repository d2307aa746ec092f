package org.lightledger.web;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.StayLight;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.StopLight;
import org.lightledger.share.Redaction;
import org.lightledger.share.Returned;
import org.lightledger.share.Share;
import org.lightledger.share.ShareKeys;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;
import org.lightledger.share.SharedPage;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Spot;
import org.lightledger.store.DossierReader;
import org.lightledger.store.LedgerSession;
import org.lightledger.sun.SunEphemeris;

/** Reads from the ledger what a share shows. */
final class ShareReader {
  /** A client is not told of a light that passes in less: own choice. */
  private static final Duration SHORTEST_TOLD = Duration.ofMinutes(5);

  private final SunEphemeris sun;

  ShareReader(SunEphemeris sun) {
    this.sun = sun;
  }

  /** What the client of a share sees, or nothing when the shortlist is gone. */
  Optional<SharedPage> view(LedgerSession session, Share share) {
    Returned returned = session.replies().of(share.id());
    return view(session, share.subject(), share.keys(), share.terms(), returned);
  }

  /** What a client would see under some terms. */
  Optional<SharedPage> view(
      LedgerSession session,
      ShareSubject subject,
      ShareKeys keys,
      ShareTerms terms,
      Returned returned) {
    return subject.isSession()
        ? DossierReader.read(session, subject.id())
            .map(dossier -> session(session, dossier, keys, terms, returned))
        : session
            .shortlists()
            .find(subject.id())
            .map(
                list ->
                    Redaction.shortlist(
                        list, session.spots()::find, session.hazards()::of, keys, terms, returned));
  }

  private SharedPage session(
      LedgerSession session, Dossier dossier, ShareKeys keys, ShareTerms terms, Returned returned) {
    return Redaction.session(
        dossier,
        stop -> new Redaction.StopLook(light(dossier, stop), picture(session, stop.spotId())),
        keys,
        terms,
        returned);
  }

  /** The light at a stop by what is known now; what passes within minutes is left out. */
  private List<Redaction.LightFrom> light(Dossier dossier, KeptPlan.Stop stop) {
    KeptPlan plan = Objects.requireNonNull(dossier.plan(), "a stop belongs to a plan");
    Spot spot = dossier.spots().get(stop.spotId());
    ZoneId zone = dossier.session().zone();
    StayLight light =
        spot == null
            ? null
            : StopLight.of(sun, stop, spot, dossier.skylines().get(spot.id()), plan.sky(), zone);
    List<Redaction.LightFrom> told = new ArrayList<>();
    if (light == null) {
      return told;
    }
    for (StayLight.Span span : light.spans()) {
      Instant from = later(span.window().from().toInstant(), stop.shootFrom());
      Instant until = earlier(span.window().to().toInstant(), stop.shootUntil());
      boolean another = told.isEmpty() || told.get(told.size() - 1).light() != span.light();
      boolean lasts = !Duration.between(from, until).minus(SHORTEST_TOLD).isNegative();
      if (another && (lasts || light.spans().size() == 1)) {
        told.add(new Redaction.LightFrom(span.light(), from.atZone(zone).toOffsetDateTime()));
      }
    }
    return told;
  }

  private static Instant later(Instant one, Instant other) {
    return one.isAfter(other) ? one : other;
  }

  private static Instant earlier(Instant one, Instant other) {
    return one.isBefore(other) ? one : other;
  }

  /**
   * The picture that stands for a spot on the newest shortlist that has one. The owner sees it
   * before a link is made, and changes it there: it can show somebody else.
   */
  static @Nullable Long picture(LedgerSession session, long spotId) {
    return session.shortlists().all().stream()
        .map(Shortlist::entries)
        .flatMap(List::stream)
        .filter(entry -> entry.spotId() == spotId && entry.coverShotId() != null)
        .map(Shortlist.Entry::coverShotId)
        .findFirst()
        .orElse(null);
  }

  /** The session of a share, or null for a shortlist's. */
  static @Nullable Session session(LedgerSession session, Share share) {
    return share.subject().isSession()
        ? session.sessions().find(share.subject().id()).orElse(null)
        : null;
  }

  /** The zone in which a share's times are told to the owner. */
  static ZoneId zone(House house, LedgerSession session, Share share) {
    Session booked = session(session, share);
    return booked == null ? house.zone(session.spots().all()) : booked.zone();
  }
}

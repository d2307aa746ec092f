package org.lightledger.web;

import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.SpotLight;
import org.lightledger.geo.Bearing;
import org.lightledger.light.LightClass;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.outgoing.Dossier;
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

  /** The light in the middle of a stop's pictures, by what is known now. */
  private @Nullable LightClass light(Dossier dossier, KeptPlan.Stop stop) {
    Bearing facing = stop.facing();
    KeptPlan plan = Objects.requireNonNull(dossier.plan(), "a stop belongs to a plan");
    Spot spot = dossier.spots().get(stop.spotId());
    if (facing == null || spot == null) {
      return null;
    }
    long halfMillis = (stop.shootUntil().toEpochMilli() - stop.shootFrom().toEpochMilli()) / 2;
    return SpotLight.of(
            sun.direction(stop.shootFrom().plusMillis(halfMillis), spot.position()),
            facing,
            dossier.skylines().get(spot.id()),
            plan.sky())
        .light();
  }

  /**
   * The picture of a spot that the owner chose for clients, on the newest shortlist that has one.
   * None is taken unasked: it can show another client.
   */
  private static @Nullable Long picture(LedgerSession session, long spotId) {
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

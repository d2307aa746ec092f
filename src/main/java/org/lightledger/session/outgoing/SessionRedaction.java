package org.lightledger.session.outgoing;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Client;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.KeptPlan;
import org.lightledger.spot.Cautions;
import org.lightledger.spot.Spot;

/**
 * Turns a session into what its client may be told. It copies what is allowed, field by field, so
 * that a field added to a client, a session or a spot later stays private until somebody lists it
 * here.
 */
public final class SessionRedaction {
  private SessionRedaction() {}

  /**
   * The client's view.
   *
   * @param dossier what the ledger holds
   * @return what a message may tell
   */
  public static SharedSession view(Dossier dossier) {
    KeptPlan plan = dossier.plan();
    Client client = dossier.client();
    ZoneId zone = dossier.session().zone();
    return new SharedSession(
        Plainly.line(client.addressee()),
        firstName(client),
        client.minor() && client.guardian() != null,
        Plainly.line(dossier.session().terms().name()),
        plan == null ? dossier.session().terms().outfitLimit() : outfits(plan),
        plan == null ? dossier.session().date() : local(plan.callTime(), zone).toLocalDate(),
        dossier.session().isZoneKnown() ? zone : null,
        plan == null ? null : meeting(dossier, plan, zone),
        plan == null
            ? List.of()
            : plan.stops().stream().map(stop -> stop(dossier, stop, zone)).toList(),
        plan == null ? null : local(plan.end(), zone),
        dossier.questions().stream().map(ClientQuestion::words).map(Plainly::line).toList());
  }

  /**
   * What a client is called in all that leaves the ledger. Should a minor be noted with the full
   * name there as well, the first word of it.
   *
   * @param client the client
   * @return a first name
   */
  public static String firstName(Client client) {
    String called = Plainly.line(client.calledName());
    boolean full = called.equalsIgnoreCase(Plainly.line(client.name()));
    int space = called.indexOf(' ');
    return client.minor() && full && space > 0 ? called.substring(0, space) : called;
  }

  private static SharedSession.Meeting meeting(Dossier dossier, KeptPlan plan, ZoneId zone) {
    Spot first = dossier.spot(plan.stops().get(0).spotId());
    GeoPoint own = plan.meeting().place();
    String words = Plainly.line(plan.meeting().words());
    return new SharedSession.Meeting(
        local(plan.callTime(), zone),
        words.isEmpty() && own == null ? Plainly.line(first.name()) : words,
        own == null ? first.position() : own);
  }

  private static SharedSession.Stop stop(Dossier dossier, KeptPlan.Stop stop, ZoneId zone) {
    Spot spot = dossier.spot(stop.spotId());
    return new SharedSession.Stop(
        Plainly.line(spot.name()),
        local(stop.arrive(), zone),
        local(stop.leave(), zone),
        worn(stop),
        driveMinutes(stop.drive()),
        Plainly.text(Cautions.forClient(dossier.hazards(spot.id()), spot.cautions())));
  }

  /**
   * The outfits of the pictures at a stop; a change after the last picture is for the next stop.
   */
  static List<Integer> worn(KeptPlan.Stop stop) {
    List<Integer> worn = new ArrayList<>();
    worn.add(stop.outfit());
    for (KeptPlan.Change change : stop.changes()) {
      if (!change.from().isBefore(stop.shootFrom()) && change.from().isBefore(stop.shootUntil())) {
        worn.add(change.toOutfit());
      }
    }
    return worn;
  }

  /** How many different outfits a plan wears. */
  private static int outfits(KeptPlan plan) {
    return (int) plan.stops().stream().flatMap(stop -> worn(stop).stream()).distinct().count();
  }

  private static @Nullable Integer driveMinutes(KeptPlan.@Nullable Drive drive) {
    return drive == null || drive.minutes() == 0 ? null : Integer.valueOf(drive.minutes());
  }

  private static OffsetDateTime local(Instant at, ZoneId zone) {
    return at.atZone(zone).toOffsetDateTime();
  }
}

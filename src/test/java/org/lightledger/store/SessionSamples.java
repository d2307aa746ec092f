package org.lightledger.store;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.Anchor;
import org.lightledger.session.Answer;
import org.lightledger.session.Candidate;
import org.lightledger.session.Client;
import org.lightledger.session.Contact;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.share.Returned;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;
import org.lightledger.share.ShareTokens;
import org.lightledger.spot.Trait;

/** Clients and sessions to store. */
public final class SessionSamples {
  private static final Instant NOON = Instant.parse("2026-06-30T10:00:00Z");

  private SessionSamples() {}

  /** A client of age. */
  public static Client adult() {
    return new Client(
        0,
        "Berta Alonso Vidal",
        "Berta",
        false,
        new Contact("berta@example.org", "+34 600 100 200"),
        null,
        "Calle Mayor 1",
        "Likes dogs.");
  }

  /** A client under age. */
  public static Client minor() {
    return new Client(
        0,
        "Nilo Quiroga Saavedra",
        "Nilo",
        true,
        Contact.NONE,
        new Client.Guardian("Marta Saavedra", new Contact("marta@example.org", null)),
        "",
        "");
  }

  /** A session of a client on 30 June 2026 that ends at sunset. */
  public static Session session(long clientId) {
    return new Session(
        0,
        "session-" + clientId + "-2026-06-30",
        0,
        clientId,
        LocalDate.of(2026, 6, 30),
        ZoneId.of("Europe/Madrid"),
        new Anchor.EndsAtSunset(0),
        Terms.USUAL,
        Session.State.BOOKED,
        Session.Brief.EMPTY);
  }

  /** A plan of one stop for each spot, half an hour at each. */
  public static KeptPlan plan(long... spotIds) {
    List<KeptPlan.Stop> stops = new ArrayList<>();
    for (int i = 0; i < spotIds.length; i++) {
      Instant arrive = NOON.plusSeconds(i * 2400L);
      stops.add(
          new KeptPlan.Stop(
              spotIds[i],
              arrive,
              arrive.plusSeconds(300),
              arrive.plusSeconds(1200),
              arrive.plusSeconds(1800),
              i + 1,
              i == 0
                  ? List.of()
                  : List.of(
                      new KeptPlan.Change(
                          arrive.plusSeconds(1200), arrive.plusSeconds(1800), i + 2)),
              i == 0 ? null : new KeptPlan.Drive(10, KeptPlan.Drive.Source.OWNER),
              i == 0 ? null : new Bearing(231.5),
              i == 0 ? null : Long.valueOf(spotIds[0])));
    }
    return new KeptPlan(
        NOON.minusSeconds(86_400),
        Sky.CLEAR,
        false,
        NOON,
        NOON.plusSeconds(spotIds.length * 2400L),
        new KeptPlan.Meeting("At the fountain", new GeoPoint(41.95, -6.6)),
        stops);
  }

  /** Shares something by a link that shows all, with a reply and a picture of an outfit. */
  public static long share(LedgerSession session, ShareSubject subject) {
    ShareTokens tokens = new ShareTokens();
    long id =
        session
            .shares()
            .create(
                subject,
                new ShareTerms(false, null, "", true, true, true, null),
                tokens.next(),
                tokens.keys(),
                NOON);
    session.replies().addOutfit(id, new byte[] {(byte) 0xff, (byte) 0xd8, (byte) 0xff}, NOON);
    long spot = session.spots().all().get(0).id();
    session.replies().keep(id, List.of(new Returned.Pick(spot, true, "This one")), "", NOON);
    return id;
  }

  /** Fills each of the tables of sessions for two spots that are in the ledger. */
  static void fill(LedgerSession session, long spot, long other) {
    long client = session.clients().add(minor());
    long id = session.sessions().add(session(client));
    session
        .candidates()
        .put(
            id,
            new Candidate(
                spot,
                Candidate.Choice.LOCKED,
                Set.of(LightClass.RIM, LightClass.BACKLIT),
                30,
                LocalTime.of(19, 30)));
    session.plans().keep(id, plan(spot, other));
    session.drives().put(new OwnDrive(spot, other, 12));
    session.drives().setHours(spot, new OpenHours(LocalTime.of(8, 0), LocalTime.of(20, 30)));
    session
        .questionnaire()
        .answer(id, new Answer(1, "Where?", "By water", Set.of(Trait.WATER), NOON, true));
    session.packing().packGear(id);
  }
}

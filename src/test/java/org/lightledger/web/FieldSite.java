package org.lightledger.web;

import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Anchor;
import org.lightledger.session.Client;
import org.lightledger.session.Contact;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.spot.Hazard;
import org.lightledger.store.LedgerSession;

/** A session of two stops on the evening of the day that the test's clock shows. */
final class FieldSite {
  static final LocalDate DAY = LocalDate.of(2026, 11, 25);
  static final ZoneId MADRID = ZoneId.of("Europe/Madrid");

  private FieldSite() {}

  static Instant at(String hour) {
    return DAY.atTime(java.time.LocalTime.parse(hour)).atZone(MADRID).toInstant();
  }

  /** Books the session and keeps its plan; session 1, things to pack 1 to 7. */
  static void fill(TestSite site) {
    site.ledger().change(FieldSite::fill);
  }

  private static void fill(LedgerSession session) {
    long client =
        session
            .clients()
            .add(
                new Client(
                    0, "Berta Alonso Vidal", "Berta", false, Contact.NONE, null, "", "PRIVATE"));
    long id =
        session
            .sessions()
            .add(
                new Session(
                    0,
                    "session-of-the-field",
                    0,
                    client,
                    DAY,
                    MADRID,
                    new Anchor.EndsAtSunset(0),
                    Terms.USUAL,
                    Session.State.PLANNED,
                    Session.Brief.EMPTY));
    session.packing().packGear(id);
    session.hazards().set(1, Set.of(Hazard.RAILWAY, Hazard.WATER));
    session.plans().keep(id, plan());
  }

  private static KeptPlan plan() {
    return new KeptPlan(
        at("09:00"),
        Sky.CLEAR,
        false,
        at("16:00"),
        at("17:50"),
        new KeptPlan.Meeting("At the fountain", new GeoPoint(41.951, -6.609)),
        List.of(
            new KeptPlan.Stop(
                1,
                at("16:00"),
                at("16:10"),
                at("16:50"),
                at("16:55"),
                1,
                List.of(new KeptPlan.Change(at("16:50"), at("16:55"), 2)),
                null,
                new Bearing(231.5),
                2L),
            new KeptPlan.Stop(
                2,
                at("17:05"),
                at("17:10"),
                at("17:45"),
                at("17:50"),
                2,
                List.of(),
                new KeptPlan.Drive(10, KeptPlan.Drive.Source.ESTIMATED),
                new Bearing(262),
                null)));
  }

  /** A scouting shot of the day at the first spot. */
  static byte[] photo() {
    return TestPhotos.shot(
        "2026:11:25 16:20:00", "+01:00", TestSite.PLACES[0][0], TestSite.PLACES[0][1], 232.0, 1);
  }

  static TestSite open(Path folder) {
    TestSite site = new TestSite(folder).withPhotos();
    fill(site);
    return site;
  }
}

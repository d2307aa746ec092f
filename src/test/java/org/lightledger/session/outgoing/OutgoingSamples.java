package org.lightledger.session.outgoing;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Anchor;
import org.lightledger.session.Answer;
import org.lightledger.session.Client;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.Contact;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.PackItem;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/** Sessions that go out. */
public final class OutgoingSamples {
  public static final ZoneId MADRID = ZoneId.of("Europe/Madrid");
  public static final GeoPoint FOUNTAIN = new GeoPoint(41.93, -6.42);

  private static final String[] NAMES = {
    "Reed Bank", "Poplar Avenue", "Mill Wall", "Old Arcade", "Upper Weir"
  };

  private OutgoingSamples() {}

  /** A studio of which everything is known. */
  public static Studio studio() {
    return Studio.of(
        Map.of(
            Studio.NAME,
            "Estudio Brezo",
            Studio.EMAIL,
            "hello@brezo.example",
            Studio.PHONE,
            "+34 600 000 001",
            Studio.COMMON_QUESTIONS,
            "https://brezo.example/questions"));
  }

  public static Client adult() {
    return new Client(
        1,
        "Berta Alonso Vidal",
        "Berta",
        false,
        new Contact("berta@example.org", "+34 600 100 200"),
        null,
        "Calle Mayor 1",
        "Private: likes dogs.");
  }

  public static Client minor() {
    return new Client(
        1,
        "Nilo Quiroga Saavedra",
        "Nilo",
        true,
        new Contact("nilo@example.org", "+34 600 100 999"),
        new Client.Guardian("Marta Saavedra", new Contact("marta@example.org", "+34 600 100 300")),
        "Plaza Vieja 7",
        "Private: shy.");
  }

  public static Spot spot(long id) {
    int i = (int) id - 1;
    return new Spot(
        id,
        NAMES[i],
        null,
        new GeoPoint(41.9293 + 0.0013 * i, -6.4220 - 0.0021 * i),
        MADRID,
        false,
        List.of(),
        "Private note of spot " + id,
        id % 2 == 0 ? "Wet stones by the water: walk slowly.\nPermit of the town needed." : "");
  }

  public static Session session(LocalDate date, ZoneId zone) {
    return new Session(
        1,
        "u-7f3a9c",
        3,
        1,
        date,
        zone,
        new Anchor.EndsAtSunset(0),
        Terms.USUAL,
        Session.State.AGREED,
        new Session.Brief(
            "Close pictures with the dog, and one by the water at the end of the day.",
            "Walking towards the camera; looking over the shoulder; hands and ring.",
            "Her new job, the trip to the coast, music.",
            "Let her laugh before the first picture.",
            "",
            "Private: paid in advance."));
  }

  /** A plan of so many stops of 25 minutes, ten minutes apart, from a local time on. */
  public static KeptPlan plan(LocalDateTime call, ZoneId zone, int stops) {
    Instant at = call.atZone(zone).toInstant();
    List<KeptPlan.Stop> list = new ArrayList<>();
    for (int i = 0; i < stops; i++) {
      Instant arrive = at.plusSeconds(i * 2100L + 300);
      list.add(
          new KeptPlan.Stop(
              i + 1L,
              arrive,
              arrive.plusSeconds(240),
              arrive.plusSeconds(1500),
              arrive.plusSeconds(1500),
              1 + i % 4,
              i == 2
                  ? List.of(
                      new KeptPlan.Change(arrive.plusSeconds(600), arrive.plusSeconds(900), 4))
                  : List.of(),
              i == 0 ? null : new KeptPlan.Drive(6 + i, KeptPlan.Drive.Source.ESTIMATED),
              new Bearing(230.0 + 12 * i),
              i == 1 ? Long.valueOf(5) : null));
    }
    return new KeptPlan(
        at.minusSeconds(86_400),
        Sky.CLEAR,
        false,
        at,
        at.plusSeconds(stops * 2100L + 300),
        new KeptPlan.Meeting("At the fountain by the north gate", FOUNTAIN),
        list);
  }

  /** Berta's session of five stops on 15 December 2026. */
  public static Dossier dossier() {
    return dossier(adult(), LocalDate.of(2026, 12, 15).atTime(15, 0), MADRID, 5);
  }

  public static Dossier dossier(Client client, LocalDateTime call, ZoneId zone, int stops) {
    Map<Long, Spot> spots = new HashMap<>();
    for (long id = 1; id <= 5; id++) {
      spots.put(id, spot(id));
    }
    return new Dossier(
        session(call.toLocalDate(), zone),
        client,
        stops == 0 ? null : plan(call, zone, stops),
        spots,
        Map.of(),
        Map.of(2L, Set.of(Hazard.RAILWAY)),
        List.of(
            new ClientQuestion(1, "Which kinds of place do you like?", ClientQuestion.Kind.PLACES),
            new ClientQuestion(2, "Which pictures do you hope for?", ClientQuestion.Kind.WORDS)),
        List.of(
            new Answer(
                1,
                "Which kinds of place do you like?",
                "By the river",
                Set.of(Trait.WATER),
                Instant.EPOCH,
                true)),
        List.of(
            new PackItem(1, "Batteries charged, and spares", Instant.EPOCH),
            new PackItem(2, "Cards in the cameras, empty, and spares", null),
            new PackItem(3, "Reflector", null),
            new PackItem(4, "Changing tent", null),
            new PackItem(5, "Water, blanket, pins, wipes", null)));
  }

  /** The same session as far as another one is. */
  public static Dossier in(Session.State state, Dossier dossier) {
    Session was = dossier.session();
    return new Dossier(
        new Session(
            was.id(),
            was.uid(),
            was.revision(),
            was.clientId(),
            was.date(),
            was.zone(),
            was.anchor(),
            was.terms(),
            state,
            was.brief()),
        dossier.client(),
        dossier.plan(),
        dossier.spots(),
        dossier.skylines(),
        dossier.hazards(),
        dossier.questions(),
        dossier.answers(),
        dossier.packing());
  }

  /** The same session fixed otherwise in another day or place, with another plan. */
  public static Dossier fixed(
      LocalDate date, ZoneId zone, Anchor anchor, @Nullable KeptPlan plan, Map<Long, Spot> spots) {
    Session was = session(date, zone);
    Dossier made = dossier();
    return new Dossier(
        new Session(
            was.id(),
            was.uid(),
            was.revision(),
            was.clientId(),
            date,
            zone,
            anchor,
            was.terms(),
            was.state(),
            was.brief()),
        made.client(),
        plan,
        spots,
        Map.of(),
        Map.of(),
        made.questions(),
        made.answers(),
        made.packing());
  }
}

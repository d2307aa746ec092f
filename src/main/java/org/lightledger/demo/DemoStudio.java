package org.lightledger.demo;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.lightledger.light.LightClass;
import org.lightledger.session.Anchor;
import org.lightledger.session.Answer;
import org.lightledger.session.Candidate;
import org.lightledger.session.Client;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.Contact;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.OwnDrive;
import org.lightledger.session.PackItem;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.session.planner.PlanOutcome;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.Planner;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.PlanKeeping;
import org.lightledger.studio.PlanWish;
import org.lightledger.studio.SessionPlanning;
import org.lightledger.studio.Studio;

/** Gives the demo's studio invented clients and two sessions with them. */
public final class DemoStudio {
  private static final int DAYS_TO_THE_FIRST = 6;
  private static final int DAY_OF_NEXT_MONTH = 15;

  private static final Map<String, Set<Trait>> TRAITS =
      Map.of(
          "Ansar Meadow", Set.of(Trait.OPEN_FIELD, Trait.WATER),
          "Reed Bank", Set.of(Trait.WATER),
          "Bridge Landing", Set.of(Trait.WATER, Trait.TOWN),
          "Washing Place", Set.of(Trait.WATER, Trait.COVERED, Trait.PLACE_TO_CHANGE),
          "Cloth Hall Arcade", Set.of(Trait.TOWN, Trait.COVERED),
          "Chapel Steps", Set.of(Trait.TOWN, Trait.PARKING),
          "Poplar Avenue", Set.of(Trait.WOODS, Trait.PARKING),
          "Wheat Edge", Set.of(Trait.OPEN_FIELD));

  private DemoStudio() {}

  /**
   * Adds the clients and their sessions, unless the ledger has clients: then the owner has changed
   * them, or they are there.
   *
   * @param ledger the demo's ledger, with its spots named
   * @param studio books the sessions
   * @param now the present, from which the sessions' days count
   */
  public static void fill(Ledger ledger, Studio studio, Instant now) {
    LocalDate today = LocalDate.ofInstant(now, studio.zone());
    ledger.change(
        session -> {
          Map<String, Long> spots =
              session.spots().all().stream()
                  .collect(Collectors.toMap(Spot::name, Spot::id, (one, other) -> one));
          if (session.clients().all().isEmpty() && spots.keySet().containsAll(TRAITS.keySet())) {
            new Filling(session, studio, spots, now).fill(today);
          }
        });
  }

  /**
   * Plans the sessions that have spots to choose from and no plan yet, as the planner proposes.
   *
   * @param ledger the demo's ledger, filled
   * @param planning puts together what the planner needs
   */
  public static void plan(Ledger ledger, SessionPlanning planning) {
    for (Session booked : ledger.read(session -> session.sessions().all())) {
      PlanKeeping.Basis basis = ledger.read(session -> PlanKeeping.Basis.of(session, booked));
      Optional<PlanRequest> request =
          ledger.read(
              session ->
                  session.plans().find(booked.id()).isPresent()
                      ? Optional.empty()
                      : Optional.ofNullable(
                          planning
                              .prepare(session, booked, PlanWish.usual(booked, basis.candidates()))
                              .request()));
      if (request.isPresent()
          && Planner.plan(request.get()) instanceof PlanOutcome.Planned planned) {
        KeptPlan.Meeting meeting = new KeptPlan.Meeting("Beside the parked grey van", null);
        PlanKeeping.keep(
            ledger, basis, PlanKeeping.of(planned.plan(), meeting, false, planning.now()));
      }
    }
  }

  /** One filling of a ledger. */
  private record Filling(
      LedgerSession session, Studio studio, Map<String, Long> spots, Instant now) {

    void fill(LocalDate today) {
      session.settings().set(org.lightledger.session.outgoing.Studio.NAME, "Estudio Tres Álamos");
      session.settings().set(org.lightledger.session.outgoing.Studio.EMAIL, "studio@example.org");
      session.settings().set(org.lightledger.session.outgoing.Studio.PHONE, "600 000 100");
      session
          .settings()
          .set(
              org.lightledger.session.outgoing.Studio.COMMON_QUESTIONS,
              "https://example.org/questions");
      TRAITS.forEach(
          (name, traits) -> {
            if (session.traits().of(spot(name)).isEmpty()) {
              session.traits().set(spot(name), traits);
            }
          });
      session.drives().put(new OwnDrive(spot("Poplar Avenue"), spot("Chapel Steps"), 6));
      session.drives().put(new OwnDrive(spot("Reed Bank"), spot("Poplar Avenue"), 4));
      first(today.plusDays(DAYS_TO_THE_FIRST));
      second(today.plusMonths(1).withDayOfMonth(DAY_OF_NEXT_MONTH));
      session
          .clients()
          .add(
              new Client(
                  0,
                  "Odilo Barreda",
                  "Odilo",
                  false,
                  new Contact("odilo@example.net", null),
                  null,
                  "",
                  "Asked about a picture for his choir; no day yet."));
    }

    /** A minor, nearly ready. */
    private void first(LocalDate date) {
      long client =
          session
              .clients()
              .add(
                  new Client(
                      0,
                      "Ilda Sorrel Maroto",
                      "Ilda",
                      true,
                      Contact.NONE,
                      new Client.Guardian(
                          "Sabela Maroto", new Contact("sabela.maroto@example.org", "600 000 117")),
                      "Calle de los Tejedores 9, Brezaluz",
                      "Sabela drives and stays near."));
      long id = book(client, date, new Anchor.EndsAtSunset(0));
      session
          .sessions()
          .describe(
              id,
              new Session.Brief(
                  "Her last school year: with the cello, and some without.",
                  "One by the water with the light behind her; one on the steps, laughing.",
                  "The orchestra, the river in August, her brother's goat.",
                  "Try one picture from a ladder.",
                  "",
                  "Cold hands last time: gloves in the car."));
      answer(id, 0, "", Set.of(Trait.WATER, Trait.WOODS));
      answer(id, 1, "Something I can hang next to the piano.", Set.of());
      answer(id, 2, "The cello. It must not get wet.", Set.of());
      candidate(id, "Reed Bank", Candidate.Choice.FREE, Set.of(LightClass.BACKLIT));
      candidate(id, "Poplar Avenue", Candidate.Choice.LOCKED, Set.of(LightClass.BACKLIT));
      candidate(id, "Chapel Steps", Candidate.Choice.FREE, Set.of());
      candidate(id, "Bridge Landing", Candidate.Choice.EXCLUDED, Set.of());
      session.packing().add(id, "Ladder");
      session.packing().add(id, "Plastic sheet for the cello");
      List<PackItem> items = session.packing().items(id);
      session.packing().tick(id, items.get(0).id(), true, now);
    }

    /** A couple, weeks ahead. */
    private void second(LocalDate date) {
      long client =
          session
              .clients()
              .add(
                  new Client(
                      0,
                      "Aurora Veiga and Tomé Lastra",
                      "Aurora and Tomé",
                      false,
                      new Contact("aurora.veiga@example.org", "+34 600 000 242"),
                      null,
                      "",
                      ""));
      long id = book(client, date, new Anchor.StartsAt(LocalTime.of(15, 30)));
      candidate(id, "Cloth Hall Arcade", Candidate.Choice.FREE, Set.of(LightClass.OPEN_SHADE));
      candidate(id, "Ansar Meadow", Candidate.Choice.FREE, Set.of());
    }

    private long book(long client, LocalDate date, Anchor anchor) {
      Terms terms = session.sessions().packages().get(0).terms();
      return studio.book(session, client, date, anchor, terms);
    }

    private void answer(long id, int place, String words, Set<Trait> places) {
      ClientQuestion asked = session.questionnaire().questions().get(place);
      session
          .questionnaire()
          .answer(id, new Answer(asked.id(), asked.words(), words, places, now, false));
    }

    private void candidate(long id, String name, Candidate.Choice choice, Set<LightClass> wanted) {
      session.candidates().put(id, new Candidate(spot(name), choice, wanted, null, null));
    }

    private long spot(String name) {
      Long id = spots.get(name);
      if (id == null) {
        throw new IllegalStateException("the demo names no spot " + name);
      }
      return id;
    }
  }
}

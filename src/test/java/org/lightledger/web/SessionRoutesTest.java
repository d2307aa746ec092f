package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.session.Anchor;
import org.lightledger.session.Answer;
import org.lightledger.session.Candidate;
import org.lightledger.session.Client;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;
import org.lightledger.session.PackItem;
import org.lightledger.session.Session;
import org.lightledger.session.Terms;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;

/** Clients and sessions on the owner's pages, over real HTTP. */
class SessionRoutesTest {
  @TempDir Path folder;
  private TestSite site;

  @BeforeEach
  void open() {
    site = new TestSite(folder).withPhotos();
  }

  @AfterEach
  void close() {
    site.close();
  }

  private void addClient() {
    TestSite.Answer added =
        site.post(
            "/clients",
            "name",
            "Nilo Quiroga Saavedra",
            "called",
            "Nilo",
            "minor",
            "yes",
            "guardian",
            "Marta Saavedra",
            "guardian-email",
            "marta@example.org",
            "home",
            "Calle del Pozo 4",
            "notes",
            "Shy at first.");
    assertThat(added.status()).isEqualTo(303);
    assertThat(added.header("Location")).isEqualTo("/clients/1?saved=1");
  }

  private void book(String date, String... more) {
    String[] form = new String[8 + more.length];
    System.arraycopy(
        new String[] {"client", "1", "date", date, "package", "1", "minutes", "0"}, 0, form, 0, 8);
    System.arraycopy(more, 0, form, 8, more.length);
    TestSite.Answer booked = site.post("/sessions", form);
    assertThat(booked.status()).as(booked.text()).isEqualTo(303);
  }

  private Session session() {
    return site.ledger().read(session -> session.sessions().find(1).orElseThrow());
  }

  private List<Candidate> candidates() {
    return site.ledger().read(session -> session.candidates().of(1));
  }

  private String page(String path) {
    TestSite.Answer answer = site.get(path);
    assertThat(answer.status()).as(path).isEqualTo(200);
    return answer.text();
  }

  @Test
  void anEmptyStudioSaysWhereToBegin() {
    assertThat(page("/today")).contains("Nothing is due", "href=\"/sessions/new\"");
    assertThat(page("/sessions")).contains("No session is booked", "href=\"/clients/new\"");
    assertThat(page("/clients")).contains("No client yet");
    assertThat(page("/sessions/new")).contains("enter the client first");
    for (String path : List.of("/sessions/1", "/clients/7", "/sessions/x", "/sessions/9/edit")) {
      assertThat(site.get(path).status()).as(path).isEqualTo(404);
    }
    assertThat(site.post("/sessions/1/brief", "wishes", "x").status()).isEqualTo(404);
    assertThat(site.post("/clients/1", "name", "A", "called", "A").status()).isEqualTo(404);
  }

  /** The brief and how it went stand in two forms of one page; neither undoes the other. */
  @Test
  void twoFormsSavedAtOnceBothCount() throws Exception {
    addClient();
    book("2026-12-12");
    ExecutorService two = Executors.newFixedThreadPool(2);
    try {
      for (int round = 0; round < 20; round++) {
        String word = "Round " + round;
        Future<TestSite.Answer> brief =
            two.submit(() -> site.post("/sessions/1/brief", "notes", word));
        Future<TestSite.Answer> state =
            two.submit(() -> site.post("/sessions/1/state", "state", "PLANNED", "outcome", word));
        assertThat(brief.get().status()).isEqualTo(303);
        assertThat(state.get().status()).isEqualTo(303);
        assertThat(session().brief().notes()).isEqualTo(word);
        assertThat(session().brief().outcome()).isEqualTo(word);
      }
    } finally {
      two.shutdownNow();
    }
  }

  @Test
  void allBadFieldsOfAClientAreNamedAndNothingTypedIsLost() {
    TestSite.Answer refused =
        site.post(
            "/clients",
            "name",
            "",
            "called",
            "Nilo",
            "minor",
            "yes",
            "email",
            "nilo@@example",
            "phone",
            "call me",
            "guardian",
            "",
            "notes",
            "Likes <kites> & dogs");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("5 fields need another look")
        .contains("href=\"#f-name\"", "href=\"#f-email\"", "href=\"#f-phone\"")
        .contains("href=\"#f-guardian\"", "href=\"#f-guardian-email\"")
        .contains("expected an e-mail address such as ada@example.org")
        .contains("value=\"nilo@@example\"", "value=\"call me\"", "Likes &lt;kites&gt; &amp; dogs");
    assertThat(site.ledger().<List<Client>>read(session -> session.clients().all())).isEmpty();
  }

  @Test
  void aMinorIsKeptWithAGuardianAndStaysOutOfAddresses() {
    addClient();
    assertThat(page("/clients"))
        .contains("Nilo Quiroga Saavedra", "through Marta Saavedra", "marta@example.org");
    assertThat(page("/clients/1")).contains("Calle del Pozo 4", "<title>Client ");
    book("2026-12-15");
    assertThat(page("/sessions/1"))
        .contains("<title>Nilo, Tue 15 Dec 2026", "Marta Saavedra")
        .doesNotContain("Calle del Pozo", "Shy at first", "marta@example.org");
    String grown = "/clients/1";
    assertThat(site.post(grown, "name", "Nilo Quiroga", "called", "Nil").status()).isEqualTo(303);
    assertThat(page("/clients/1")).contains("Nilo Quiroga", "Nil, Tue 15 Dec 2026");
  }

  @Test
  void aSessionIsBookedBySunsetOrClockAndMovedToAnotherDay() {
    addClient();
    assertThat(page("/sessions/new?client=1&date=2026-12-15"))
        .contains("Tue 15 Dec 2026: Sunset 17:5", "value=\"2026-12-15\"");
    book("2026-12-15", "anchor", "sunset");
    assertThat(page("/sessions/1"))
        .contains("ends at sunset", "Sunset 17:5")
        .contains("Europe/Madrid", "Outdoor portraits: up to 4 outfits, 2 to 5 stops, 2 h 30 min");
    assertThat(session().uid()).hasSizeGreaterThan(20).doesNotContain("Nilo");
    TestSite.Answer moved =
        site.post(
            "/sessions/1",
            "client",
            "1",
            "date",
            "2026-12-20",
            "package",
            "",
            "anchor",
            "starts",
            "time",
            "15:30");
    assertThat(moved.status()).isEqualTo(303);
    assertThat(session())
        .returns(LocalDate.of(2026, 12, 20), Session::date)
        .returns(new Anchor.StartsAt(LocalTime.of(15, 30)), Session::anchor)
        .returns(1, Session::revision);
    assertThat(page("/sessions/1")).contains("15:30 to 18:00", "starts at 15:30");
    assertThat(page("/sessions/1/edit"))
        .contains("as booked: Outdoor portraits", "value=\"15:30\"");
  }

  @Test
  void hoursThatAreHardlyMeantAreSaid() {
    addClient();
    book("2026-12-20", "anchor", "starts", "time", "15:30");
    assertThat(page("/sessions/1")).doesNotContain("another session", "the sun has set before");
    assertThat(page("/sessions")).contains("15:30 to 18:00, starts at 15:30, Outdoor portraits");

    book("2026-12-20", "anchor", "starts", "time", "17:55");
    book("2026-12-20", "anchor", "starts", "time", "19:30");
    book("2026-12-21", "anchor", "starts", "time", "15:30");

    assertThat(page("/sessions/1"))
        .contains("Another session at the same time: Nilo, Sun 20 Dec 2026, 17:55 to 20:25")
        .doesNotContain("19:30");
    assertThat(page("/sessions/3"))
        .contains("17:55 to 20:25; the sun has set before it begins")
        .doesNotContain("15:30");
    assertThat(page("/sessions/4")).doesNotContain("another session", "Another session");
    assertThat(page("/sessions")).contains("15:30 to 18:00", "17:55 to 20:25", "19:30 to 22:00");
    assertThat(page("/today")).contains("15:30 to 18:00", "17:55 to 20:25", "19:30 to 22:00");
    site.post("/sessions/2/state", "state", "CANCELLED");
    assertThat(page("/sessions/1")).doesNotContain("Another session");
    at("2026-12-01T10:00:00Z");
    assertThat(page("/today"))
        .contains("in 19 days, 15:30 to 18:00", "in 19 days, 19:30 to 22:00")
        .doesNotContain("in 19 days, 17:55");
  }

  @Test
  void aDayThatIsOverIsBookedWithAWord() {
    addClient();
    String[] form = {"client", "1", "date", "2020-01-15", "package", "1", "minutes", "0"};
    String warning = "Wed 15 Jan 2020 is before today. If it was not meant, change the day.";

    TestSite.Answer booked = site.post("/sessions", form);
    assertThat(booked.status()).isEqualTo(303);
    assertThat(page(booked.header("Location"))).contains(warning);
    assertThat(page("/sessions/1")).doesNotContain(warning);

    form[3] = "2026-12-20";
    TestSite.Answer moved = site.post("/sessions/1", form);
    assertThat(page(moved.header("Location"))).contains("Saved.").doesNotContain("is before today");
    form[3] = "2020-01-15";
    assertThat(page(site.post("/sessions/1", form).header("Location").replaceAll("#.*", "")))
        .contains("Saved.", warning);
  }

  @Test
  void allBadFieldsOfABookingAreNamedAtOnce() {
    addClient();
    TestSite.Answer refused =
        site.post(
            "/sessions",
            "client",
            "",
            "date",
            "31.12.",
            "package",
            "9",
            "anchor",
            "ends",
            "time",
            "late");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("4 fields need another look", "href=\"#f-client\"", "href=\"#f-date\"")
        .contains("href=\"#f-package\"", "href=\"#f-time\"", "value=\"31.12.\"", "value=\"late\"");
    assertThat(site.post("/sessions", "client", "9", "date", "2026-12-15", "package", "1").status())
        .isEqualTo(404);
  }

  @Test
  void theBriefAndTheStateAreKeptAndAGoalAsksHowItWent() {
    addClient();
    book("2026-12-15");
    assertThat(
            site.post(
                    "/sessions/1/brief",
                    "wishes",
                    "With the dog",
                    "talking",
                    "Kites",
                    "goal",
                    "One picture from below",
                    "notes",
                    "Invoice sent")
                .status())
        .isEqualTo(303);
    TestSite.Answer tooLong =
        site.post("/sessions/1/brief", "wishes", "x".repeat(4001), "goal", "g");
    assertThat(tooLong.status()).isEqualTo(422);
    assertThat(tooLong.text()).contains("x".repeat(4001), "expected at most 4000 characters");
    TestSite.Answer refused = site.post("/sessions/1/state", "state", "DONE", "outcome", "");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("expected a word on how it went", "value=\"DONE\" selected");
    TestSite.Answer lost = site.post("/sessions/1/state", "state", "LOST");
    assertThat(lost.status()).isEqualTo(422);
    assertThat(lost.text())
        .contains("expected one of booked, planned, agreed, done, cancelled; found")
        .contains("LOST");
    TestSite.Answer early =
        site.post("/sessions/1/state", "state", "DONE", "outcome", "Lay in the grass");
    assertThat(early.status()).isEqualTo(422);
    assertThat(early.text())
        .contains("expected a session that has begun, found one that begins on Tue 15 Dec 2026 at");
    assertThat(session().state()).isEqualTo(Session.State.BOOKED);
    at("2026-12-15T16:00:00Z");
    site.post("/sessions/1/state", "state", "DONE", "outcome", "Lay in the grass");
    assertThat(session())
        .returns(Session.State.DONE, Session::state)
        .returns(
            new Session.Brief(
                "With the dog",
                "",
                "Kites",
                "One picture from below",
                "Lay in the grass",
                "Invoice sent"),
            Session::brief);
    assertThat(page("/sessions")).contains("Past and cancelled");
  }

  @Test
  void candidatesComeFromTheStockAndFromShortlists() {
    addClient();
    book("2026-12-15");
    site.post("/sessions/1/answers", "places-1", "water", "answer-1", "");
    site.ledger().change(session -> session.traits().set(2, Set.of(Trait.WATER)));
    String found = page("/sessions/1?find=1&light=backlit&light=rim&light=side");
    assertThat(found).contains("The client likes water", "name=\"spot\" value=\"2\"");
    assertThat(found.indexOf("name=\"spot\" value=\"2\""))
        .isLessThan(found.indexOf("name=\"spot\" value=\"1\""));
    assertThat(site.post("/sessions/1/candidates", "spot", "1").status()).isEqualTo(303);
    assertThat(page("/sessions/1")).contains("Backlit", "looking SW");
    assertThat(page("/sessions/1?find=1&light=backlit"))
        .doesNotContain("name=\"spot\" value=\"1\"");
    site.post("/shortlists/keep", "spot", "2", "list", "");
    site.post("/shortlists/keep", "spot", "1", "list", "1");
    site.post("/sessions/1/candidates/shortlist", "list", "1");
    assertThat(candidates()).extracting(Candidate::spotId).containsExactly(1L, 2L);
    for (String wrong : List.of("99", "x")) {
      assertThat(site.post("/sessions/1/candidates", "spot", wrong).status()).isEqualTo(404);
      assertThat(site.post("/sessions/1/candidates/shortlist", "list", wrong).status())
          .isEqualTo(404);
    }
    assertThat(site.post("/spots/1/delete").text()).doesNotContain("failed");
    assertThat(site.get("/spots/1").status()).isEqualTo(200);
  }

  @Test
  void aCandidateIsLockedOrderedAndTakenOff() {
    addClient();
    book("2026-12-15");
    site.post("/sessions/1/candidates", "spot", "1", "spot", "2");
    TestSite.Answer refused =
        site.post(
            "/sessions/1/candidates/2",
            "choice",
            "FREE",
            "stay-2",
            "3",
            "arrival-2",
            "16:30",
            "wanted",
            "rim");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("2 fields need another look", "href=\"#f-stay-2\"", "href=\"#f-arrival-2\"")
        .contains("value=\"3\"", "value=\"16:30\"", "<details open>");
    site.post(
        "/sessions/1/candidates/2",
        "choice",
        "LOCKED",
        "stay-2",
        "30",
        "arrival-2",
        "16:30",
        "wanted",
        "rim",
        "wanted",
        "backlit");
    site.post("/sessions/1/candidates/2/up");
    site.post("/sessions/1/candidates/2/up");
    assertThat(candidates())
        .containsExactly(
            new Candidate(
                2,
                Candidate.Choice.LOCKED,
                Set.of(LightClass.BACKLIT, LightClass.RIM),
                30,
                LocalTime.of(16, 30)),
            new Candidate(1, Candidate.Choice.FREE, Set.of(), null, null));
    assertThat(page("/sessions/1")).contains("locked, there at 16:30, 30 min", "backlit, rim");
    site.post("/sessions/1/candidates/2/down");
    site.post("/sessions/1/candidates/2/remove");
    assertThat(candidates()).extracting(Candidate::spotId).containsExactly(1L);
    for (String gone : List.of("/remove", "/up", "")) {
      assertThat(site.post("/sessions/1/candidates/2" + gone, "choice", "FREE").status())
          .isEqualTo(404);
    }
  }

  @Test
  void answersKeepTheirTimeUntilTheyChange() {
    addClient();
    book("2026-12-15");
    site.post("/sessions/1/answers", "places-1", "woods", "answer-2", "With my dog");
    site.clock().advance(Duration.ofHours(1));
    site.post(
        "/sessions/1/answers",
        PageForm.of(page("/sessions/1"), "/sessions/1/answers")
            .tick("places-1", "woods", false)
            .type("answer-3", "A kite")
            .sent());
    List<Answer> answers = site.ledger().read(session -> session.questionnaire().answers(1));
    assertThat(answers).extracting(Answer::words).containsExactly("With my dog", "A kite");
    assertThat(answers.get(1).at()).isEqualTo(answers.get(0).at().plus(Duration.ofHours(1)));
    assertThat(page("/sessions/1")).contains("typed in by you, Wed 25 Nov 2026, 11:00");
    TestSite.Answer refused =
        site.post("/sessions/1/answers", "answer-4", "y".repeat(4001), "places-1", "moon");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains("2 fields need another look", "y".repeat(4001));
  }

  @Test
  void thingsToPackAreTickedWithAndWithoutAScript() {
    addClient();
    book("2026-12-15");
    assertThat(page("/sessions/1")).contains("0 of 7 packed", "Reflector");
    assertThat(site.post("/sessions/1/items/1/tick", "done", "yes").status()).isEqualTo(303);
    TestSite.Answer part =
        site.post("/sessions/1/items/2/tick", List.of("HX-Request", "true"), "done", "yes");
    assertThat(part.text())
        .contains("2 of 7 packed", "aria-pressed=\"true\"")
        .doesNotContain("<html");
    site.post("/sessions/1/items/1/tick", "done", "no");
    site.post("/sessions/1/items", "item", "A red kite");
    site.post("/sessions/1/items/3/remove");
    List<PackItem> items = site.ledger().read(session -> session.packing().items(1));
    assertThat(items).hasSize(7).last().returns("A red kite", PackItem::words);
    assertThat(items.stream().filter(item -> item.doneAt() != null).map(PackItem::id))
        .containsExactly(2L);
    assertThat(site.post("/sessions/1/items", "item", " ").status()).isEqualTo(422);
    assertThat(site.post("/sessions/1/items", "item", "z".repeat(201)).text())
        .contains("expected at most 200 characters", "value=\"" + "z".repeat(201));
    assertThat(site.post("/sessions/1/items/99/tick", "done", "yes").status()).isEqualTo(404);
  }

  @Test
  void todayNamesWhatIsDueAndLeadsThere() {
    addClient();
    book("2026-12-15");
    assertThat(page("/today")).contains("Send the questions", "in 20 days", "due since");
    site.post("/sessions/1/answers", "answer-2", "With my dog");
    assertThat(page("/today")).doesNotContain("Send the questions").contains("Nothing is due");
    site.clock().advance(Duration.ofDays(13));
    assertThat(page("/today"))
        .contains("4 answers are missing", "href=\"/sessions/1#answers\"", "Choose the spots");
    site.post("/studio/days", "questions", "21", "plan", "3", "reminder", "2", "rehearsal", "8");
    assertThat(page("/today")).doesNotContain("Choose the spots");
    site.post("/sessions/1/candidates", "spot", "3");
    assertThat(page("/today")).contains("Rehearse: 1 spot has not been seen in this light");
    site.clock().advance(Duration.ofDays(7));
    assertThat(page("/sessions/1")).contains("Photograph", "Pack: 7 things are open");
    site.clock().advance(Duration.ofDays(1));
    assertThat(page("/today")).contains("Say how it went", "1 day ago");
  }

  @Test
  void theStudioIsSetUp() {
    String studio = page("/studio");
    assertThat(studio)
        .contains("Outdoor portraits", "Reflector", "Which pictures do you hope for?");
    site.post(
        "/studio/packages",
        "package-name-0",
        "Short walk",
        "outfits-0",
        "1",
        "least-0",
        "1",
        "most-0",
        "2",
        "length-0",
        "60");
    TestSite.Answer refused =
        site.post(
            "/studio/packages/1",
            "package-name-1",
            "Short walk",
            "outfits-1",
            "99",
            "least-1",
            "x",
            "most-1",
            "",
            "length-1",
            "60.5");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("5 fields need another look", "value=\"99\"", "value=\"60.5\"");
    site.post("/studio/packages/1/remove");
    site.post("/studio/gear", "gear", "Kite string");
    assertThat(site.post("/studio/gear", "gear", "Kite string").status()).isEqualTo(422);
    site.post("/studio/gear/1/remove");
    site.post("/studio/questions", "question-0", "Which shoes?");
    site.post("/studio/questions/1", "question-1", "Which places?", "places-1", "yes");
    site.post("/studio/questions/6/up");
    site.post("/studio/questions/2/remove");
    assertThat(site.post("/studio/questions/3", "question-3", "").status()).isEqualTo(422);
    assertThat(site.post("/studio/questions/99/up").status()).isEqualTo(404);
    assertThat(site.post("/studio/days", "questions", "999", "plan", "").status()).isEqualTo(422);
    String changed = page("/studio");
    assertThat(changed)
        .contains("Short walk", "Kite string", "Which shoes?", "Which places?")
        .doesNotContain("Outdoor portraits", "Batteries", "Which pictures do you hope for?");
  }

  @Test
  void hoursAndDrivesAreToldOnTheSpotsPage() {
    site.post("/spots/1/hours", "opens", "08:00", "closes", "20:30");
    site.post("/spots/1/drives", "way", "there", "drive-other", "2", "minutes", "7");
    site.post("/spots/1/drives", "way", "back", "drive-other", "3", "minutes", "9");
    assertThat(page("/spots/1")).contains("value=\"08:00\"", "To Spot 2: 7 min", "From Spot 3: 9");
    TestSite.Answer refused = site.post("/spots/1/hours", "opens", "21:00", "closes", "20:00");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text()).contains("value=\"21:00\"", "closes at 23:59");
    assertThat(site.post("/spots/1/hours", "opens", "21:00").status()).isEqualTo(422);
    assertThat(site.post("/spots/1/drives", "drive-other", "2", "minutes", "soon").text())
        .contains("value=\"soon\"", "expected a number from 0 to 720 minutes");
    site.post("/spots/1/drives/3/1/remove");
    assertThat(site.ledger().<List<OwnDrive>>read(session -> session.drives().all()))
        .containsExactly(new OwnDrive(1, 2, 7));
    assertThat(
            site.ledger()
                .<Boolean>read(
                    session ->
                        session
                            .drives()
                            .hours(1)
                            .filter(new OpenHours(LocalTime.of(8, 0), LocalTime.of(20, 30))::equals)
                            .isPresent()))
        .isTrue();
    site.post("/spots/1/hours", "opens", "", "closes", "");
    assertThat(page("/spots/1")).doesNotContain("value=\"08:00\"");
  }

  @Test
  void aKeptPlanIsShownWithItsLightAndAfterwardsWithItsShots() {
    addClient();
    book("2026-11-20");
    Instant shot = Instant.parse("2026-11-20T16:00:00Z");
    site.ledger()
        .change(
            session ->
                session
                    .plans()
                    .keep(
                        1,
                        new KeptPlan(
                            shot.minusSeconds(86_400),
                            Sky.CLEAR,
                            true,
                            shot.minusSeconds(1800),
                            shot.plusSeconds(7200),
                            new KeptPlan.Meeting("At the mill", null),
                            List.of(
                                new KeptPlan.Stop(
                                    1,
                                    shot.minusSeconds(1800),
                                    shot.minusSeconds(1200),
                                    shot.plusSeconds(120),
                                    shot.plusSeconds(240),
                                    1,
                                    List.of(
                                        new KeptPlan.Change(
                                            shot.minusSeconds(1800), shot.minusSeconds(1200), 2)),
                                    null,
                                    new Bearing(234),
                                    2L),
                                new KeptPlan.Stop(
                                    2,
                                    shot.plusSeconds(3600),
                                    shot.plusSeconds(3700),
                                    shot.plusSeconds(5400),
                                    shot.plusSeconds(5400),
                                    2,
                                    List.of(),
                                    new KeptPlan.Drive(7, KeptPlan.Drive.Source.OWNER),
                                    null,
                                    null)))));
    assertThat(page("/sessions/1"))
        .contains(
            "16:30", "At the mill (Spot 1)", "looking <span class=\"look\">SW 234°", "Backlit")
        .contains("Drive 7 min, your own minutes", "If it can not be used: Spot 2")
        .contains("Light not known: no facing was kept", "Change to outfit 2 from 16:30 to 16:40")
        .doesNotContain("Its shots");
    site.post("/sessions/1/state", "state", "DONE");
    assertThat(page("/sessions/1"))
        .as("a shot of a stop's own spot is that stop's, whenever it was taken")
        .contains("Its shots", "2 shots at the stops", "href=\"/shots/1\"", "href=\"/shots/2\"")
        .doesNotContain("Elsewhere");
  }

  private void at(String instant) {
    site.clock().advance(Duration.between(site.clock().instant(), Instant.parse(instant)));
  }

  @Test
  void aSessionAcrossMidnightIsThatOfTheDayOnWhichItStarts() {
    addClient();
    book("2026-12-12", "anchor", "ends", "time", "00:30");
    site.ledger().change(session -> session.sessions().reschedule(withTerms(session(), 60)));
    assertThat(page("/sessions/1")).contains("23:30 to 00:30 the next day");
    site.post("/sessions/1/candidates", "spot", "1");
    site.post("/sessions/1/candidates/1", "choice", "LOCKED", "stay-1", "55", "arrival-1", "23:30");
    assertThat(site.post("/sessions/1/plan", "sky", "clear", "outfits", "1").status())
        .isEqualTo(303);
    assertThat(page("/sessions/1/messages"))
        .contains("We meet at 23:30 on Saturday 12 December 2026", "We end at about 00:30.");

    at("2026-12-12T23:29:59Z");
    assertThat(page("/today"))
        .contains("today", "Photograph")
        .doesNotContain("1 day ago", "Say how it went");
    assertThat(page("/sessions")).doesNotContain("No session is booked");
    assertThat(page("/field")).contains("Nilo, Sat 12 Dec 2026");
    assertThat(site.get("/field/package").text()).contains("\"minutes\":1470");

    at("2026-12-12T23:30:00Z");
    assertThat(page("/today")).contains("Say how it went").doesNotContain("Photograph");
    assertThat(page("/field")).contains("no session");
  }

  private static Session withTerms(Session was, int minutes) {
    return new Session(
        was.id(),
        was.uid(),
        was.revision(),
        was.clientId(),
        was.date(),
        was.zone(),
        was.anchor(),
        new Terms("Night", 1, 1, 2, minutes),
        was.state(),
        was.brief());
  }

  @Test
  void anArrivalAfterMidnightIsThatOfTheSession() {
    addClient();
    book("2026-12-12", "anchor", "starts", "time", "22:00");
    site.ledger().change(session -> session.sessions().reschedule(withTerms(session(), 240)));
    site.post("/sessions/1/candidates", "spot", "1");
    site.post("/sessions/1/candidates/1", "choice", "LOCKED", "arrival-1", "00:15");

    TestSite.Answer kept = site.post("/sessions/1/plan", "sky", "clear", "outfits", "1");

    assertThat(kept.status()).as(kept.text()).isEqualTo(303);
    KeptPlan plan = site.ledger().read(session -> session.plans().find(1)).orElseThrow();
    assertThat(plan.stops().get(0).arrive()).isEqualTo(Instant.parse("2026-12-12T23:15:00Z"));
    assertThat(page("/sessions/1/messages")).contains("on Sunday 13 December 2026");
  }

  /** A spot in Los Angeles, whose clocks are nine hours behind. */
  private long pier() {
    return site.ledger()
        .write(
            session ->
                session
                    .spots()
                    .insert(
                        new Spot(
                            0,
                            "Pier",
                            null,
                            new GeoPoint(34.0, -118.5),
                            ZoneId.of("America/Los_Angeles"),
                            false,
                            List.of(),
                            "",
                            "")));
  }

  @Test
  void theClocksAreThoseOfTheSpotsAndAPlanOfOthersGoes() {
    addClient();
    book("2026-12-15", "anchor", "starts", "time", "16:00");
    site.post("/sessions/1/candidates", "spot", "1", "spot", "2");
    site.post("/sessions/1/plan", "sky", "clear", "outfits", "1");
    assertThat(session().state()).isEqualTo(Session.State.PLANNED);
    long pier = pier();

    TestSite.Answer added = site.post("/sessions/1/candidates", "spot", String.valueOf(pier));
    assertThat(added.header("Location")).isEqualTo("/sessions/1#candidates");
    assertThat(page("/sessions/1"))
        .contains("Europe/Madrid. Mind that not all of its spots keep these clocks")
        .contains("Pier has America/Los_Angeles");

    site.post("/sessions/1/candidates/1/remove");
    assertThat(session().zone()).isEqualTo(ZoneId.of("Europe/Madrid"));
    TestSite.Answer alone = site.post("/sessions/1/candidates/2", "choice", "EXCLUDED");
    assertThat(alone.header("Location")).isEqualTo("/sessions/1?plan=gone#candidate-2");
    assertThat(page("/sessions/1?plan=gone")).contains("The plan was for other hours");
    assertThat(session())
        .returns(ZoneId.of("America/Los_Angeles"), Session::zone)
        .returns(Session.State.BOOKED, Session::state);
    assertThat(page("/sessions/1"))
        .contains("16:00 to 18:30", "Sunset 16:4")
        .doesNotContain("Mind that not all");
  }

  @Test
  void aSessionBookedBeforeAnyPlaceIsKnownTakesTheClocksOfItsPlace(@TempDir Path other) {
    try (TestSite empty = new TestSite(other)) {
      empty.post("/clients", "name", "Berta Alonso", "called", "Berta", "email", "b@example.org");
      String[] day = {
        "client",
        "1",
        "date",
        "2026-12-15",
        "package",
        "1",
        "minutes",
        "0",
        "anchor",
        "starts",
        "time",
        "18:00"
      };
      assertThat(empty.post("/sessions", day).status()).isEqualTo(303);
      assertThat(empty.get("/sessions/1").text()).contains("not known yet: add the spots");
      assertThat(empty.get("/sessions/1/messages").text())
          .contains("{{time zone}} has no value: the clocks of its place are not known yet")
          .doesNotContain("(UTC)");

      empty.withPhotos();
      assertThat(empty.post("/sessions/1", day).status()).isEqualTo(303);

      assertThat(empty.get("/sessions/1").text()).contains("Europe/Madrid", "18:00 to 20:30");
      assertThat(empty.get("/sessions/1/messages").text())
          .contains("All times are Central European Standard Time (UTC+01:00)");
    }
  }
}

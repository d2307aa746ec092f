package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.ask.Asker;
import org.lightledger.ask.Sky;
import org.lightledger.demo.DemoStudio;
import org.lightledger.session.Candidate;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.spot.Spot;
import org.lightledger.studio.Studio;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;

/** The planner's page for the demo's first session: four spots, one locked, one left out. */
class PlanRoutesTest {
  private static final String PLAN = "/sessions/1/plan";
  @TempDir static Path folder;
  private static TestSite site;

  @BeforeAll
  static void open() {
    site = new TestSite(folder).withDemo();
    SunEphemeris sun = new SpaEphemeris();
    DemoStudio.fill(
        site.ledger(),
        new Studio(site.ledger(), new Asker(sun), sun, site.clock()),
        site.clock().instant());
  }

  @AfterAll
  static void close() {
    site.close();
  }

  private static long spot(String name) {
    return site.ledger().read(session -> session.spots().all()).stream()
        .filter(spot -> spot.name().equals(name))
        .map(Spot::id)
        .findFirst()
        .orElseThrow();
  }

  private static String page(String address) {
    TestSite.Answer answer = site.get(address);
    assertThat(answer.status()).as(answer.text()).isEqualTo(200);
    return answer.text();
  }

  /** The names of the stops of the plan under a heading. */
  private static List<String> stops(String page, String heading) {
    String part = page.substring(page.indexOf(heading));
    int end = part.indexOf("</section>");
    Matcher names = Pattern.compile("<h3><a[^>]*>([^<]+)</a></h3>").matcher(part.substring(0, end));
    List<String> found = new ArrayList<>();
    while (names.find()) {
      found.add(names.group(1));
    }
    return found;
  }

  @Test
  void theBestPlanHoldsTheLockAndSaysWhyAndWhatItLeavesOut() {
    String page = page(PLAN);
    assertThat(stops(page, "The best plan"))
        .contains("Poplar Avenue")
        .doesNotContain("Bridge Landing")
        .hasSizeBetween(2, 5);
    assertThat(page)
        .contains("light minutes", "You locked it", "Drive 4 minutes, your own minutes")
        .contains("Not in the best plan", "Bridge Landing", "You excluded it")
        .contains("If it is overcast")
        .contains("name=\"outfits\" value=\"2\"");
    assertThat(page("/sessions/1")).contains("href=\"/sessions/1/plan\"");
  }

  @Test
  void anOrderByHandSaysWhatItCostsAndIsKept() {
    long avenue = spot("Poplar Avenue");
    long reeds = spot("Reed Bank");
    String page = page(PLAN + "?sky=clear&outfits=1&order=" + avenue + "," + reeds);
    assertThat(stops(page, "Your order")).containsExactly("Poplar Avenue", "Reed Bank");
    assertThat(page)
        .containsPattern(
            "This order is worth (as much as|[0-9.]+ light minutes (less|more) than) the best");
    TestSite.Answer kept =
        site.post(
            PLAN,
            "sky",
            "clear",
            "outfits",
            "1",
            "meeting",
            "At the gate <b>",
            "order",
            avenue + "," + reeds);
    assertThat(kept.status()).isEqualTo(303);
    assertThat(kept.header("Location")).isEqualTo("/sessions/1?saved=1#plan");
    KeptPlan plan = kept().orElseThrow();
    assertThat(plan.byHand()).isTrue();
    assertThat(plan.stops()).extracting(KeptPlan.Stop::spotId).containsExactly(avenue, reeds);
    assertThat(plan.meeting().words()).isEqualTo("At the gate <b>");
    assertThat(page("/sessions/1"))
        .contains("In your order, for a clear sky", "At the gate &lt;b&gt;", "/call-sheet");
    assertThat(state()).isEqualTo(Session.State.PLANNED);
    assertThat(site.post(PLAN + "/forget").status()).isEqualTo(303);
    assertThat(state()).isEqualTo(Session.State.BOOKED);
    assertThat(kept()).isEmpty();
  }

  private static Optional<KeptPlan> kept() {
    return site.ledger().read(session -> session.plans().find(1));
  }

  private static Session.State state() {
    return site.ledger().read(session -> session.sessions().find(1).orElseThrow()).state();
  }

  /** A plan that would be told the client as before stays agreed; any other is agreed again. */
  @Test
  void whatWasAgreedIsAgreedAgainWhenThePlanChangesOrGoes() {
    site.post(PLAN, "sky", "clear", "outfits", "1", "meeting", "At the gate");
    agree();
    TestSite.Answer same =
        site.post(PLAN, "sky", "clear", "outfits", "1", "meeting", "At the gate");
    assertThat(same.header("Location")).isEqualTo("/sessions/1?saved=1#plan");
    assertThat(state()).isEqualTo(Session.State.AGREED);

    TestSite.Answer other =
        site.post(PLAN, "sky", "clear", "outfits", "1", "meeting", "By the mill");
    assertThat(other.header("Location")).isEqualTo("/sessions/1?saved=1&plan=agree#plan");
    assertThat(state()).isEqualTo(Session.State.PLANNED);

    agree();
    TestSite.Answer forgotten = site.post(PLAN + "/forget");
    assertThat(forgotten.header("Location")).isEqualTo("/sessions/1?saved=1&plan=agree#plan");
    assertThat(page("/sessions/1?saved=1&plan=agree"))
        .contains("so the session no longer counts as agreed");
    assertThat(state()).isEqualTo(Session.State.BOOKED);
  }

  private static void agree() {
    site.ledger().change(session -> session.sessions().setState(1, Session.State.AGREED));
  }

  @Test
  void anOvercastSkyIsPlannedForToo() {
    String page = page(PLAN + "?sky=overcast&outfits=1");
    assertThat(page).contains("Open shade").doesNotContain("If it is overcast");
    assertThat(site.post(PLAN, "sky", "overcast", "outfits", "1", "place", "41.93,-6.42").status())
        .isEqualTo(303);
    KeptPlan plan = kept().orElseThrow();
    assertThat(plan.sky()).isEqualTo(Sky.OVERCAST);
    assertThat(plan.stops().get(0).drive()).isNotNull();
    assertThat(site.post(PLAN + "/forget").status()).isEqualTo(303);
  }

  @Test
  void badFieldsAreNamedAtOnceAndKeepNothing() {
    TestSite.Answer refused =
        site.get(PLAN + "?sky=clear&outfits=9&change=x&place=nowhere&order=999");
    assertThat(refused.status()).isEqualTo(422);
    assertThat(refused.text())
        .contains("4 fields need another look", "#f-outfits", "#f-change", "#f-place", "#f-order")
        .contains("expected different candidates by their numbers");
    assertThat(site.post(PLAN, "sky", "clear", "outfits", "9").status()).isEqualTo(422);
    assertThat(kept()).isEmpty();
    assertThat(site.get("/sessions/99/plan").status()).isEqualTo(404);
  }

  @Test
  void whatCanNotBePlannedSaysWhatToDo() {
    site.ledger()
        .change(
            session -> {
              for (Candidate candidate : session.candidates().of(2)) {
                session.candidates().remove(2, candidate.spotId());
              }
            });
    assertThat(page("/sessions/2/plan"))
        .contains("add the spots that it may stop at", "href=\"/sessions/2#candidates\"");
    TestSite.Answer tooLong = site.get("/sessions/1/plan?sky=clear&outfits=4&change=60");
    assertThat(tooLong.text()).contains("No plan fits", "One outfit would fit.");
  }
}

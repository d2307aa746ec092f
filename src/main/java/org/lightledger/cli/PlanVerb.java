package org.lightledger.cli;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Sky;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.session.planner.PlanOutcome;
import org.lightledger.session.planner.PlanRequest;
import org.lightledger.session.planner.Planner;
import org.lightledger.store.Ledger;
import org.lightledger.studio.PlanChange;
import org.lightledger.studio.PlanKeeping;
import org.lightledger.studio.PlanWish;
import org.lightledger.studio.RegionRoads;
import org.lightledger.studio.SessionPlanning;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Plans a session. */
@Command(
    name = "plan",
    description = {
      "Chooses and orders the stops of a session so that each has the light it should have.",
      "Exits with 1 when no plan fits."
    })
final class PlanVerb extends Verb {
  @Parameters(paramLabel = "SESSION", description = "The session's number.")
  private long sessionId;

  @Option(
      names = "--sky",
      paramLabel = "SKY",
      defaultValue = "clear",
      description = "clear or overcast; ${DEFAULT-VALUE} if not given.")
  private String sky;

  @Option(names = "--outfits", paramLabel = "N", description = "How many outfits are worn.")
  private @Nullable Integer outfits;

  @Option(names = "--change", paramLabel = "MIN", description = "Minutes for a change of outfit.")
  private @Nullable Integer changeMinutes;

  @Option(names = "--no-tent", description = "No changing tent comes along.")
  private boolean noTent;

  @Option(
      names = "--meeting",
      paramLabel = "WORDS",
      defaultValue = "",
      description = "How the client finds the meeting spot.")
  private String meeting;

  @Option(
      names = "--meeting-at",
      paramLabel = "LAT,LON",
      description = "Where it is; the first stop if not given.")
  private @Nullable String meetingAt;

  @Option(
      names = "--order",
      split = ",",
      paramLabel = "SPOT[,SPOT]",
      description = "Your own order; tells what it costs in light.")
  private @Nullable List<Long> order;

  @Option(names = "--keep", description = "Keep the plan in the ledger.")
  private boolean keep;

  PlanVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    try (Ledger ledger = open();
        RegionRoads roads = new RegionRoads(ledger)) {
      makeSkylines(ledger);
      SessionPlanning planning =
          new SessionPlanning(services.studio(ledger), roads, services.sun(), services.clock());
      PlanKeeping.Basis basis =
          ledger.read(
              session -> PlanKeeping.Basis.of(session, SessionVerb.session(session, sessionId)));
      Session booked = basis.booked();
      PlanWish wish = wish(PlanWish.usual(booked, basis.candidates()), booked);
      SessionPlanning.Prepared prepared =
          ledger.read(session -> planning.prepare(session, booked, wish));
      PlanRequest request = prepared.request();
      if (request == null) {
        throw new IllegalArgumentException(prepared.missing());
      }
      List<Long> own = order;
      Planner.ByHand byHand = own == null ? null : Planner.byHand(request, own, Map.of());
      PlanOutcome outcome = byHand == null ? Planner.plan(request) : byHand.outcome();
      PlanOutput output = new PlanOutput(request, byHand == null ? "" : byHand.cost());
      print(() -> output.json(outcome), () -> output.text(outcome));
      if (!(outcome instanceof PlanOutcome.Planned planned)) {
        return CommandLine.ExitCode.SOFTWARE;
      }
      if (keep) {
        KeptPlan kept =
            PlanKeeping.of(planned.plan(), wish.meeting(), byHand != null, planning.now());
        PlanChange change =
            PlanKeeping.keep(ledger, basis, kept)
                .orElseThrow(
                    () ->
                        new IllegalArgumentException(
                            "expected the session as it was planned for, found that it was changed"
                                + " meanwhile; nothing was kept, plan it again"));
        note("Kept.");
        noteChange(change);
      }
    }
    return 0;
  }

  private PlanWish wish(PlanWish usual, Session booked) {
    Integer worn = outfits;
    int most = PlanWish.mostOutfits(booked);
    if (worn != null && (worn < 1 || worn > most)) {
      throw new IllegalArgumentException(
          "--outfits: expected 1 to " + most + " for this session, found " + worn);
    }
    String place = meetingAt;
    return new PlanWish(
        sky(),
        worn == null ? usual.outfits() : worn,
        changeMinutes == null ? usual.changeMinutes() : changeMinutes,
        usual.tent() && !noTent,
        new KeptPlan.Meeting(
            meeting.strip(),
            place == null ? null : named("--meeting-at", () -> GeoPoint.parse(place))));
  }

  private Sky sky() {
    return switch (sky.toLowerCase(Locale.ROOT)) {
      case "clear" -> Sky.CLEAR;
      case "overcast" -> Sky.OVERCAST;
      default ->
          throw new IllegalArgumentException(
              "--sky: expected clear or overcast, found \"" + sky + "\"");
    };
  }
}

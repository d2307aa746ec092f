package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Corrected;
import org.lightledger.correction.Correction;
import org.lightledger.correction.Corrections;
import org.lightledger.correction.Taps;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.view.Sighting;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredCorrection;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunDirection;

/** The page of one shot: evidence beside conclusion, corrections, the direction from a tap. */
final class ShotRoutes {
  private static final String PREFIX = "shot";
  private static final List<String> TAPPED =
      List.of("atx", "aty", "footx", "footy", "tipx", "tipy", "horizonx", "horizony");
  private static final int MOST_SENT = 20;

  /** Spots that help to find the place on the map; metres, own choice. */
  private static final double AROUND_M = 500;

  /** How long a tap waits for the skyline that it changes: own choice. */
  private static final Duration AFTER_TAP = Duration.ofSeconds(2);

  private final House house;
  private final Corrections corrections;

  ShotRoutes(House house, Corrections corrections) {
    this.house = house;
    this.corrections = corrections;
  }

  void register(RoutesConfig routes) {
    routes.get("/shots/{id}", this::get);
    routes.get("/shots/{id}/facing", this::sight);
    routes.post("/shots/{id}", this::fix);
    routes.post("/shots/{id}/sun", this::sunOnSubject);
  }

  /** What was sent, and what came of it. */
  private record Sent(
      Map<String, String> fields,
      String fix,
      List<FieldProblem> problems,
      @Nullable Corrected corrected) {
    static final Sent NOTHING = new Sent(Map.of(), "", List.of(), null);
  }

  /** A browser without script sends the taps to the page itself. */
  private void get(Context ctx) {
    if (ctx.queryParam("tap") == null) {
      show(ctx, Sent.NOTHING);
      return;
    }
    Fields fields = new Fields(ctx::queryParams);
    TapFields.read(fields);
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
    }
    show(ctx, new Sent(Map.of(), "", fields.problems(), null));
  }

  private void sight(Context ctx) {
    Fields fields = new Fields(ctx::queryParams);
    StoredShot stored = house.ledger().read(session -> find(ctx, session));
    Taps taps = TapFields.read(fields);
    fields.check();
    house.pages().part(ctx, "sighted", tapView(ctx, stored, taps));
  }

  private void fix(Context ctx) {
    long id = house.ledger().read(session -> find(ctx, session)).id();
    Fields fields = new Fields(ctx::formParams);
    FixFields fix = new FixFields(ctx, fields, PREFIX);
    Correction correction = fix.correction();
    if (correction == null || !fields.problems().isEmpty()) {
      ctx.status(422);
      show(ctx, new Sent(fix.sent(), fix.fix(), fields.problems(), null));
      return;
    }
    Corrected corrected = corrections.apply(List.of(id), correction);
    show(ctx, new Sent(Map.of(), "", List.of(), corrected));
  }

  /** One tap; a page without script comes back to where the shot was shown. */
  private void sunOnSubject(Context ctx) {
    long id = House.id(ctx, "id");
    SunOnSubject said = SunTap.read(Objects.requireNonNullElse(ctx.queryParam("word"), "").strip());
    StoredShot stored =
        house
            .ledger()
            .write(
                session -> {
                  session.skylines().setSunOnSubject(id, said);
                  return find(ctx, session);
                });
    house.skylines().settle(AFTER_TAP);
    if (Pages.wantsPart(ctx)) {
      ctx.header("HX-Trigger", "skyline-changed");
      house.pages().part(ctx, "suntap", SunTap.of(stored, said));
    } else {
      boolean fromSpot = "spot".equals(ctx.queryParam("back")) && stored.spotId() != null;
      ctx.redirect(
          fromSpot ? "/spots/" + stored.spotId() + "#shot-" + id : "/shots/" + id + "#sun-said",
          HttpStatus.SEE_OTHER);
    }
  }

  private void show(Context ctx, Sent sent) {
    ShotPage page = house.ledger().read(session -> page(ctx, session, sent));
    house.show(ctx, "shot", page.name(), Frame.Room.NONE, page);
  }

  private ShotPage page(Context ctx, LedgerSession session, Sent sent) {
    StoredShot stored = find(ctx, session);
    Shot shot = stored.shot();
    Shot.Position position = shot.position();
    Shot.Facing facing = shot.facing();
    SunDirection sun = stored.sun();
    Optional<Spot> spot =
        Optional.ofNullable(stored.spotId()).flatMap(id -> session.spots().find(id));
    Taps taps =
        ctx.queryParam("tap") == null || !sent.problems().isEmpty()
            ? null
            : TapFields.read(new Fields(ctx::queryParams));
    Corrected corrected = sent.corrected();
    return new ShotPage(
        stored.id(),
        AttentionViews.name(stored),
        SpotViews.when(shot.time()),
        shot.needsAttention(),
        spot.map(s -> "/spots/" + s.id()).orElse(null),
        spot.map(Spot::name).orElse(""),
        ShotViews.facts(stored),
        sun == null || facing == null ? null : SpotViews.light(sun, facing.bearing()),
        shot.problems().stream().map(Problem::message).toList(),
        ShotViews.size(shot.evidence()),
        position == null ? "" : SpotViews.coordinate(position.point().latitudeDeg()),
        position == null ? "" : SpotViews.coordinate(position.point().longitudeDeg()),
        facing == null ? "" : ShotViews.wedge(facing.bearing(), shot.evidence()),
        ShotViews.view(shot.evidence()),
        sun == null ? "" : String.format(Locale.ROOT, "%.1f", sun.azimuth().trueDeg()),
        sun != null && sun.apparentAltitudeDeg() > 0,
        SunTap.of(stored, session.skylines().sunOnSubjectOf(stored.id()).orElse(null)),
        places(session, position),
        new FixForm(
            PREFIX,
            sent.fields(),
            sent.fix().isEmpty() ? first(shot) : sent.fix(),
            AttentionViews.offsets(List.of(stored)),
            AttentionViews.readings(List.of(stored))),
        tapView(ctx, stored, taps),
        corrected == null ? null : FixedView.of(corrected, session),
        last(session, stored.id()),
        ctx.queryParam("undone") != null,
        sent.problems());
  }

  private @Nullable LastFix last(LedgerSession session, long shotId) {
    List<StoredCorrection> newest = session.corrections().newest(1);
    boolean own = newest.equals(session.corrections().newestOf(shotId).stream().toList());
    return own ? LastFix.of(newest, house.zone(session.spots().all())) : null;
  }

  /** The fix that is likely to be wanted. */
  private static String first(Shot shot) {
    if (shot.time() instanceof CaptureTime.Ambiguous) {
      return "choice";
    }
    if (shot.time() instanceof CaptureTime.Unknown) {
      return shot.evidence().localTime() == null ? "hand" : "zone";
    }
    return shot.position() == null ? "point" : "";
  }

  private static List<AttentionPage.Place> places(
      LedgerSession session, Shot.@Nullable Position position) {
    List<Spot> spots =
        position == null
            ? session.spots().all()
            : session.spotSearch().within(position.point(), AROUND_M).stream()
                .map(near -> near.spot())
                .toList();
    return spots.stream().map(AttentionViews::place).toList();
  }

  private static TapView tapView(Context ctx, StoredShot stored, @Nullable Taps taps) {
    Map<String, String> at = new HashMap<>();
    for (String name : TAPPED) {
      String text = Objects.requireNonNullElse(ctx.queryParam(name), "");
      at.put(name, text.substring(0, Math.min(text.length(), MOST_SENT)));
    }
    String sent = ctx.queryParam("tap");
    String kind = "own".equals(sent) || "shadow".equals(sent) ? sent : "sun";
    Sighting sighting = taps == null ? null : Corrections.sight(stored, taps);
    Shot.Position position = stored.shot().position();
    if (sighting instanceof Sighting.Found found && position != null) {
      return new TapView(
          stored.id(),
          kind,
          at,
          ShotViews.fine(found.facing()),
          String.format(Locale.ROOT, "± %.1f°", found.errorDeg()),
          String.format(
              Locale.ROOT,
              "the camera pointed %.0f° %s",
              Math.abs(found.pitchDeg()),
              found.pitchDeg() < 0 ? "down" : "up"),
          ShotViews.wedge(found.facing(), stored.shot().evidence()),
          SpotViews.coordinate(position.point().latitudeDeg()),
          SpotViews.coordinate(position.point().longitudeDeg()),
          null);
    }
    String refused = sighting instanceof Sighting.Refused no ? no.reason() : null;
    return new TapView(stored.id(), kind, at, "", "", "", "", "", "", refused);
  }

  private static StoredShot find(Context ctx, LedgerSession session) {
    return session
        .shots()
        .find(House.id(ctx, "id"))
        .orElseThrow(() -> PageProblem.notFound("There is no shot with this number."));
  }
}

package org.lightledger.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.field.FieldDay;
import org.lightledger.field.FieldPackage;
import org.lightledger.field.FieldSpot;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.light.SunCare;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.skyline.Skyline;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.Studio;
import org.lightledger.studio.StudioPlace;
import org.lightledger.sun.SunEphemeris;

/** The day's plan on a phone, and what the phone takes along of it. */
final class FieldRoutes {
  /** The page; it alone may ask the phone where it is. */
  static final String PAGE = "/field";

  /** Spots so near to a stop go along; metres, own choice. */
  private static final double AROUND_M = 5_000;

  /** And no more than so many: some 15 KB each, own choice. */
  private static final int MOST_SPOTS = 30;

  private static final List<String> STYLES = List.of("tokens.css", "charts.css", "field.css");
  private static final List<String> SCRIPTS =
      List.of("field-queue.js", "field-now.js", "field-compass.js", "field.js");
  private static final ObjectMapper JSON = new ObjectMapper();

  private final House house;
  private final Assets assets;
  private final SunEphemeris sun;
  private final Studio studio;
  private final FieldViews views;

  FieldRoutes(House house, Assets assets, SunEphemeris sun, Studio studio) {
    this.house = house;
    this.assets = assets;
    this.sun = sun;
    this.studio = studio;
    this.views = new FieldViews(sun);
  }

  void register(RoutesConfig routes) {
    routes.get(PAGE, this::page);
    routes.get("/field/package", this::take);
    routes.get("/field/ground", this::ground);
    routes.get("/field/manifest", this::manifest);
    routes.get("/field-worker.js", this::worker);
  }

  /** A session to take along, its plan, and the day. */
  private record Chosen(
      @Nullable Session session, @Nullable KeptPlan plan, LocalDate date, ZoneId zone) {
    String query() {
      return session == null ? "" : "?session=" + session.id();
    }
  }

  private Chosen chosen(Context ctx, LedgerSession session) {
    String wanted = ctx.queryParam("session");
    List<Session> all = session.sessions().all();
    Optional<Session> found =
        wanted == null || wanted.isEmpty()
            ? next(all, session)
            : all.stream().filter(one -> String.valueOf(one.id()).equals(wanted)).findFirst();
    if (found.isEmpty() && wanted != null && !wanted.isEmpty()) {
      throw PageProblem.notFound("There is no session with this number.");
    }
    if (found.isEmpty()) {
      List<Spot> spots = session.spots().all();
      return new Chosen(null, null, house.today(spots), house.zone(spots));
    }
    Session booked = found.get();
    return new Chosen(
        booked, session.plans().find(booked.id()).orElse(null), booked.date(), booked.zone());
  }

  /** Open sessions from today on, and one that has gone on since yesterday. */
  private boolean isAhead(LedgerSession session, Session booked) {
    LocalDate today = LocalDate.ofInstant(house.clock().instant(), booked.zone());
    return booked.state().isOpen()
        && (!booked.date().isBefore(today) || !studio.isOver(session, booked));
  }

  /** The first open session from today on; of several on a day one that has a plan. */
  private Optional<Session> next(List<Session> all, LedgerSession session) {
    return all.stream()
        .filter(one -> isAhead(session, one))
        .min(
            Comparator.comparing(Session::date)
                .thenComparing(one -> session.plans().find(one.id()).isEmpty())
                .thenComparing(Session::id));
  }

  private void page(Context ctx) {
    house.skylines().settle(SpotRoutes.SETTLE);
    FieldPage page = house.ledger().read(session -> page(session, chosen(ctx, session)));
    house.pages().part(ctx, "field", page);
  }

  private FieldPage page(LedgerSession session, Chosen chosen) {
    Session booked = chosen.session();
    KeptPlan plan = chosen.plan();
    Instant now = house.clock().instant();
    FieldPage.Ground ground = plan == null ? null : FieldGround.of(session, plan, chosen.query());
    String picture = ground == null ? null : ground.picture();
    List<String> keep = new ArrayList<>();
    STYLES.forEach(name -> keep.add(assets.url(name)));
    SCRIPTS.forEach(name -> keep.add(assets.url(name)));
    keep.add(assets.url("mark.svg"));
    keep.add("/field/manifest");
    keep.add("/field/package" + chosen.query());
    if (picture != null) {
      keep.add(picture);
    }
    return new FieldPage(
        assets,
        booked == null
            ? Words.day(chosen.date()) + ": no session"
            : SessionWords.title(SessionPages.client(session, booked.clientId()), booked),
        booked != null && booked.state() == Session.State.CANCELLED,
        chosen.query(),
        booked == null ? "" : String.valueOf(booked.id()),
        chosen.zone().getId(),
        String.valueOf(now.toEpochMilli()),
        Words.moment(now.atZone(chosen.zone()).toOffsetDateTime()),
        plan == null ? null : views.plan(session, plan, chosen.zone()),
        booked == null ? null : SessionPages.packing(session, booked.id(), Sent.NOTHING),
        ground,
        sessions(session, booked),
        around(session, plan).stream()
            .map(spot -> new AskPage.Choice(String.valueOf(spot.id()), spot.name(), false))
            .toList(),
        String.join(" ", keep),
        SunCare.WARNING,
        Hazard.RULES_FIRST);
  }

  private List<AskPage.Choice> sessions(LedgerSession session, @Nullable Session picked) {
    return session.sessions().all().stream()
        .filter(one -> isAhead(session, one) || picked != null && one.id() == picked.id())
        .map(
            one ->
                new AskPage.Choice(
                    String.valueOf(one.id()),
                    SessionWords.title(SessionPages.client(session, one.clientId()), one),
                    picked != null && one.id() == picked.id()))
        .toList();
  }

  /** The stops, then the spots around them, nearest first. */
  private static List<Spot> around(LedgerSession session, @Nullable KeptPlan plan) {
    Map<Long, Spot> spots = new LinkedHashMap<>();
    List<GeoPoint> middles = new ArrayList<>();
    if (plan == null) {
      StudioPlace.middle(session.spots().all()).ifPresent(middles::add);
    } else {
      for (KeptPlan.Stop stop : plan.stops()) {
        session
            .spots()
            .find(stop.spotId())
            .ifPresent(
                spot -> {
                  spots.put(spot.id(), spot);
                  middles.add(spot.position());
                });
      }
    }
    middles.stream()
        .flatMap(middle -> session.spotSearch().within(middle, AROUND_M).stream())
        .map(near -> near.spot())
        .sorted(Comparator.comparingDouble((Spot spot) -> nearestM(spot, middles)))
        .forEach(spot -> spots.putIfAbsent(spot.id(), spot));
    return spots.values().stream().limit(MOST_SPOTS).toList();
  }

  private static double nearestM(Spot spot, List<GeoPoint> middles) {
    return middles.stream()
        .mapToDouble(middle -> Geodesy.distanceM(middle, spot.position()))
        .min()
        .orElse(0);
  }

  private void take(Context ctx) {
    house.skylines().settle(SpotRoutes.SETTLE);
    FieldPackage taken =
        house
            .ledger()
            .read(
                session -> {
                  Chosen chosen = chosen(ctx, session);
                  FieldDay day = day(session, chosen);
                  Map<Long, Set<Hazard>> hazards = session.hazards().all();
                  List<FieldSpot> spots = new ArrayList<>();
                  for (Spot spot : around(session, chosen.plan())) {
                    Skyline skyline =
                        SpotSky.known(session.skylines().find(spot.id()).orElse(null));
                    spots.add(
                        day.spot(
                            spot,
                            hazards.getOrDefault(spot.id(), Set.of()),
                            skyline,
                            planned(chosen.plan(), spot)));
                  }
                  return new FieldPackage(house.clock().instant(), day, spots);
                });
    ctx.contentType("application/json").result(taken.toJson());
  }

  private FieldDay day(LedgerSession session, Chosen chosen) {
    Session booked = chosen.session();
    return booked == null
        ? new FieldDay(sun, chosen.date(), chosen.zone())
        : new FieldDay(sun, chosen.date(), chosen.zone(), studio.over(session, booked));
  }

  private static List<Bearing> planned(@Nullable KeptPlan plan, Spot spot) {
    List<Bearing> facings = new ArrayList<>();
    if (plan != null) {
      for (KeptPlan.Stop stop : plan.stops()) {
        Bearing facing = stop.facing();
        if (stop.spotId() == spot.id() && facing != null && !facings.contains(facing)) {
          facings.add(facing);
        }
      }
    }
    return facings;
  }

  private void ground(Context ctx) {
    byte[] png =
        house
            .ledger()
            .read(
                session -> {
                  KeptPlan plan = chosen(ctx, session).plan();
                  return plan == null
                      ? Optional.<byte[]>empty()
                      : FieldGround.picture(session, plan);
                })
            .orElseThrow(() -> PageProblem.notFound("There is no plan, or no map of its region."));
    ctx.contentType("image/png").result(png);
  }

  /** The page as a thing to install (W3C, Web Application Manifest). */
  private void manifest(Context ctx) {
    Map<String, Object> manifest = new LinkedHashMap<>();
    manifest.put("id", PAGE);
    manifest.put("name", "Lightledger in the field");
    manifest.put("short_name", "Lightledger");
    manifest.put("start_url", PAGE);
    manifest.put("scope", PAGE);
    manifest.put("display", "standalone");
    manifest.put("background_color", "#ffffff");
    manifest.put("theme_color", "#14181b");
    manifest.put(
        "icons", List.of(icon("field-192.png", "192x192"), icon("field-512.png", "512x512")));
    try {
      ctx.contentType("application/manifest+json").result(JSON.writeValueAsString(manifest));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("texts can always be written", e);
    }
  }

  private Map<String, String> icon(String name, String sizes) {
    Map<String, String> icon = new LinkedHashMap<>();
    icon.put("src", assets.url(name));
    icon.put("sizes", sizes);
    icon.put("type", "image/png");
    icon.put("purpose", "any maskable");
    return icon;
  }

  /** Its address has no fingerprint: a browser looks there for a newer one. */
  private void worker(Context ctx) {
    ctx.contentType("text/javascript; charset=utf-8").result(assets.text("field-worker.js"));
  }
}

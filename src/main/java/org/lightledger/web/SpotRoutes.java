package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.Bearing;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.web.chart.FacingDial;

/** The page of each spot. */
final class SpotRoutes {
  private static final int MOST_NAME = 120;
  private static final int MOST_TEXT = 4000;
  private static final int MOST_OWN_FACINGS = 24;

  /** How long a page waits for what was changed just before: own choice. */
  static final Duration SETTLE = Duration.ofMillis(400);

  private final House house;
  private final SpotSky sky;
  private final SpotPlans plans;

  SpotRoutes(House house, SunEphemeris sun) {
    this.house = house;
    this.sky = new SpotSky(house, sun);
    this.plans = new SpotPlans(house, sun);
  }

  /** What was sent in vain, and is shown again. */
  private record Vain(
      SpotPage.@Nullable Form form,
      @Nullable MeasuredView measured,
      Sent travel,
      List<FieldProblem> problems) {
    static final Vain NOTHING = new Vain(null, null, Sent.NOTHING, List.of());
  }

  void register(RoutesConfig routes) {
    routes.get("/spots/{id}", this::get);
    routes.post("/spots/{id}", this::save);
    routes.post("/spots/{id}/facings", this::addFacing);
    routes.post("/spots/{id}/facings/{number}/remove", this::removeFacing);
  }

  private void get(Context ctx) {
    house.skylines().settle(SETTLE);
    if (!Pages.wantsPart(ctx)) {
      show(ctx, Vain.NOTHING);
      return;
    }
    SkyView view =
        house
            .ledger()
            .read(
                session -> {
                  Spot spot = find(ctx, session);
                  return sky.view(ctx, session, spot, session.shots().ofSpot(spot.id()));
                });
    if (!view.problems().isEmpty()) {
      ctx.status(422);
    }
    house.pages().part(ctx, "sky", view);
  }

  /** Shows the page again with readings that can not be kept. */
  void refuse(Context ctx, MeasuredView measured, List<FieldProblem> problems) {
    ctx.status(422);
    show(ctx, new Vain(null, measured, Sent.NOTHING, problems));
  }

  /** Shows the page again with hours or a drive that can not be kept. */
  void refuse(Context ctx, Sent travel) {
    ctx.status(422);
    show(ctx, new Vain(null, null, travel, travel.problems()));
  }

  private void show(Context ctx, Vain vain) {
    SpotPage page = house.ledger().read(session -> page(ctx, session, vain));
    if (!page.sky().problems().isEmpty() || !page.plans().problems().isEmpty()) {
      ctx.status(422);
    }
    house.show(ctx, "spot", page.name(), Frame.Room.SPOTS, page);
  }

  private SpotPage page(Context ctx, LedgerSession session, Vain vain) {
    Spot spot = find(ctx, session);
    List<StoredShot> shots = session.shots().ofSpot(spot.id());
    Map<Long, SunOnSubject> said = session.skylines().sunOnSubject(spot.id());
    Set<Trait> traits = session.traits().of(spot.id());
    Set<Hazard> hazards = session.hazards().of(spot.id());
    ZoneId known = spot.zone();
    String area = spot.area();
    SpotPage.Form form = vain.form();
    MeasuredView measured = vain.measured();
    SpotPage.Form stored = stored(spot, traits, hazards);
    return new SpotPage(
        spot.id(),
        spot.name(),
        area == null ? "" : area,
        SpotViews.position(spot.position()),
        SpotViews.coordinate(spot.position().latitudeDeg()),
        SpotViews.coordinate(spot.position().longitudeDeg()),
        SpotViews.wedges(spot),
        known == null ? "zone not known: hours are in UTC" : "hours of " + known.getId(),
        spot.open(),
        spot.notes(),
        spot.cautions(),
        HazardWords.advice(hazards),
        traits.stream().map(Trait::label).collect(Collectors.joining(", ")),
        sky.view(ctx, session, spot, shots),
        plans.view(ctx, session, spot),
        measured == null ? MeasuredRoutes.view(ctx, house, session, spot) : measured,
        FacingDial.facings("facings", spot.facings(), spot.open(), null),
        SpotViews.facings(spot),
        shots.stream().map(shot -> SpotViews.shot(shot, said.get(shot.id()))).toList(),
        form == null ? stored : form,
        vain.problems(),
        ctx.queryParam("saved") != null,
        ShortlistChoice.all(session, null, house.clock().instant()),
        GroupingRoutes.view(ctx, session, spot),
        TravelRoutes.view(session, spot, vain.travel()));
  }

  private static SpotPage.Form stored(Spot spot, Set<Trait> traits, Set<Hazard> hazards) {
    String area = spot.area();
    SpotPage.Form stored =
        new SpotPage.Form(
            spot.name(),
            area == null ? "" : area,
            spot.notes(),
            spot.cautions(),
            spot.open(),
            AskTerms.traitChoices(traits),
            HazardWords.choices(hazards),
            "");
    return stored.over(stored.fingerprint());
  }

  /** What the fields hold while they are no longer what the page showed; nothing when they are. */
  private static Optional<SpotPage.Form> changedSince(
      LedgerSession session, Spot spot, SpotPage.Form sent) {
    SpotPage.Form now =
        stored(spot, session.traits().of(spot.id()), session.hazards().of(spot.id()));
    boolean same = sent.shown().isEmpty() || sent.shown().equals(now.shown());
    return same || sent.fingerprint().equals(now.fingerprint())
        ? Optional.empty()
        : Optional.of(now);
  }

  private void refuseStale(Context ctx, SpotPage.Form sent, SpotPage.Form now) {
    ctx.status(409);
    show(
        ctx,
        new Vain(
            sent.over(now.shown()),
            null,
            Sent.NOTHING,
            List.of(
                new FieldProblem(
                    "name",
                    "Your words on it",
                    "expected the spot as this page showed it, found that it was changed meanwhile:"
                        + " name "
                        + Fields.found(now.name())
                        + ", notes "
                        + Fields.found(now.notes())
                        + ", cautions "
                        + Fields.found(now.cautions())
                        + "; nothing was saved, save again to put what stands below in its"
                        + " place"))));
  }

  private void save(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Set<Trait> traits = AskTerms.traits(fields);
    Set<Hazard> hazards = HazardWords.read(fields);
    SpotPage.Form form =
        new SpotPage.Form(
            fields.required("name", "Name", MOST_NAME),
            fields.text("area", "Area", MOST_NAME),
            fields.text("notes", "Notes", MOST_TEXT),
            fields.text("cautions", "Cautions", MOST_TEXT),
            fields.ticked("open"),
            AskTerms.traitChoices(traits),
            HazardWords.choices(hazards),
            fields.raw("shown"));
    if (!fields.problems().isEmpty()) {
      ctx.status(422);
      show(ctx, new Vain(form, null, Sent.NOTHING, fields.problems()));
      return;
    }
    Optional<SpotPage.Form> now =
        house
            .ledger()
            .write(
                session -> {
                  Spot spot = find(ctx, session);
                  Optional<SpotPage.Form> changed = changedSince(session, spot, form);
                  if (changed.isEmpty()) {
                    keep(session, spot, form);
                    session.traits().set(spot.id(), traits);
                    session.hazards().set(spot.id(), hazards);
                  }
                  return changed;
                });
    if (now.isPresent()) {
      refuseStale(ctx, form, now.get());
      return;
    }
    ctx.redirect("/spots/" + House.id(ctx, "id") + "?saved=1#edit", HttpStatus.SEE_OTHER);
  }

  private static void keep(LedgerSession session, Spot spot, SpotPage.Form form) {
    session
        .spots()
        .update(
            new Spot(
                spot.id(),
                form.name(),
                form.area().isEmpty() ? null : form.area(),
                spot.position(),
                spot.zone(),
                form.open(),
                spot.facings(),
                form.notes(),
                form.cautions()));
  }

  private void addFacing(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Double bearing = fields.number("bearing", "Bearing", 0, 360, "°");
    Double spread = fields.number("spread", "Spread", 0, 180, "°");
    if (fields.raw("bearing").isEmpty()) {
      fields.problem(
          "bearing", "Bearing", "expected degrees from north such as 245, found nothing");
    }
    if (bearing == null || spread == null && !fields.raw("spread").isEmpty()) {
      ctx.status(422);
      show(ctx, new Vain(null, null, Sent.NOTHING, fields.problems()));
      return;
    }
    Facing facing =
        new Facing(Bearing.of(bearing), spread == null ? 15 : spread, Facing.Origin.OWNER, 0);
    changeOwn(
        ctx,
        own -> {
          if (own.size() < MOST_OWN_FACINGS) {
            own.add(facing);
          }
        });
  }

  private void removeFacing(Context ctx) {
    long number = House.id(ctx, "number");
    String bearing = new Fields(ctx::formParams).raw("bearing");
    changeOwn(
        ctx,
        own -> {
          if (number < 0
              || number >= own.size()
              || !bearing.equals(String.valueOf(own.get((int) number).bearing().trueDeg()))) {
            throw PageProblem.notFound("That facing is no longer there.");
          }
          own.remove((int) number);
        });
  }

  private void changeOwn(Context ctx, Consumer<List<Facing>> change) {
    long id = House.id(ctx, "id");
    house
        .ledger()
        .write(
            session -> {
              List<Facing> own = new ArrayList<>();
              for (Facing facing : find(ctx, session).facings()) {
                if (facing.origin() == Facing.Origin.OWNER) {
                  own.add(facing);
                }
              }
              change.accept(own);
              session.spots().setFacings(id, own, Facing.Origin.OWNER);
              return id;
            });
    ctx.redirect("/spots/" + id + "#facings-of-spot", HttpStatus.SEE_OTHER);
  }

  static Spot find(Context ctx, LedgerSession session) {
    return session
        .spots()
        .find(House.id(ctx, "id"))
        .orElseThrow(() -> PageProblem.notFound("There is no spot with this number."));
  }
}

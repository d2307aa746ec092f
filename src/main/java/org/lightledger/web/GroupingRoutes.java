package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.indexing.Importer;
import org.lightledger.indexing.JoinDistance;
import org.lightledger.indexing.SpotEditing;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerException;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredShot;

/** Joins, splits, moves and deletes spots by the owner's hand; each can be taken back. */
final class GroupingRoutes {
  /** Spots so far away are offered to be joined; own choice, metres. */
  private static final double NEIGHBOURHOOD_M = 1000;

  private static final int MOST_NEIGHBOURS = 20;

  private final House house;
  private final Importer importer;

  GroupingRoutes(House house, Importer importer) {
    this.house = house;
    this.importer = importer;
  }

  void register(RoutesConfig routes) {
    routes.post("/spots/{id}/join", this::join);
    routes.post("/spots/{id}/split", this::split);
    routes.post("/spots/{id}/move-shots", this::moveShots);
    routes.post("/spots/{id}/position", this::moveTo);
    routes.post("/spots/{id}/position/release", this::release);
    routes.post("/spots/{id}/delete", this::delete);
    routes.post("/spots/{id}/bring-back", this::bringBack);
  }

  private void join(Context ctx) {
    long id = House.id(ctx, "id");
    Fields fields = new Fields(ctx::formParams);
    long other = number(fields, "other", "Other spot");
    fields.check();
    List<Long> shots =
        change(
            "other",
            "Other spot",
            (session, editing) -> {
              List<Long> coming =
                  session.shots().ofSpot(other).stream().map(StoredShot::id).toList();
              editing.join(id, other);
              return coming;
            });
    back(ctx, id, "?did=joined&shots=" + numbers(shots));
  }

  private void split(Context ctx) {
    long id = House.id(ctx, "id");
    List<Long> shots = shots(new Fields(ctx::formParams));
    long made = change("shots", "Shots", (session, editing) -> editing.split(id, shots));
    back(ctx, made, "?did=split&from=" + id);
  }

  private void moveShots(Context ctx) {
    long id = House.id(ctx, "id");
    Fields fields = new Fields(ctx::formParams);
    List<Long> shots = shots(fields);
    long to = number(fields, "to", "Spot to move to");
    fields.check();
    change(
        "shots",
        "Shots",
        (session, editing) -> {
          editing.moveShots(shots, to);
          return to;
        });
    back(ctx, to, "?did=moved&from=" + id + "&shots=" + numbers(shots));
  }

  private void moveTo(Context ctx) {
    long id = House.id(ctx, "id");
    Fields fields = new Fields(ctx::formParams);
    GeoPoint place = fields.place("position", "Position");
    if (place == null && fields.problems().isEmpty()) {
      fields.problem("position", "Position", "expected latitude and longitude, found nothing");
    }
    fields.check();
    if (place != null) {
      change(
          "position",
          "Position",
          (session, editing) -> {
            editing.moveTo(id, place);
            return id;
          });
    }
    back(ctx, id, "?did=placed");
  }

  private void release(Context ctx) {
    long id = House.id(ctx, "id");
    change(
        "position",
        "Position",
        (session, editing) -> {
          editing.release(id);
          return id;
        });
    back(ctx, id, "");
  }

  private void delete(Context ctx) {
    long id = House.id(ctx, "id");
    change(
        "spot",
        "Spot",
        (session, editing) -> {
          editing.delete(id);
          return id;
        });
    ctx.redirect("/spots?deleted=" + id, HttpStatus.SEE_OTHER);
  }

  private void bringBack(Context ctx) {
    long id = House.id(ctx, "id");
    change("spot", "Spot", (session, editing) -> editing.bringBack(id));
    back(ctx, id, "");
  }

  private static void back(Context ctx, long spotId, String query) {
    ctx.redirect(
        "/spots/" + spotId + query + (query.isEmpty() ? "" : "#done"), HttpStatus.SEE_OTHER);
  }

  private interface Change<T> {
    T in(LedgerSession session, SpotEditing editing);
  }

  /** What the ledger refuses is said in its words beside the field that asked for it. */
  private <T> T change(String field, String label, Change<T> work) {
    try {
      return house.ledger().write(session -> work.in(session, importer.editing(session)));
    } catch (IllegalArgumentException e) {
      throw refused(field, label, e);
    } catch (LedgerException e) {
      if (e.reason() == LedgerException.Reason.RULE_BROKEN) {
        throw refused(field, label, e);
      }
      throw e;
    }
  }

  private static PageProblem refused(String field, String label, RuntimeException e) {
    return PageProblem.badFields(
        List.of(new FieldProblem(field, label, String.valueOf(e.getMessage()))));
  }

  private static List<Long> shots(Fields fields) {
    List<Long> shots = new ArrayList<>();
    for (String text : fields.all("shots")) {
      for (String number : text.split(",")) {
        try {
          shots.add(Long.parseLong(number));
        } catch (NumberFormatException e) {
          fields.problem(
              "shots", "Shots", "expected numbers of shots, found " + Fields.quoted(text));
        }
      }
    }
    if (shots.isEmpty() && fields.problems().isEmpty()) {
      fields.problem("shots", "Shots", "expected one or more chosen shots, found none");
    }
    fields.check();
    return shots;
  }

  private static long number(Fields fields, String field, String label) {
    try {
      return Long.parseLong(fields.raw(field));
    } catch (NumberFormatException e) {
      fields.problem(
          field, label, "expected the number of a spot, found " + Fields.quoted(fields.raw(field)));
      return 0;
    }
  }

  private static String numbers(List<Long> shots) {
    return shots.stream().map(String::valueOf).collect(Collectors.joining(","));
  }

  /** What the spot's page shows of it. */
  static GroupingView view(Context ctx, LedgerSession session, Spot spot) {
    List<GroupingView.Neighbour> neighbours =
        session.spotSearch().within(spot.position(), NEIGHBOURHOOD_M).stream()
            .filter(near -> near.spot().id() != spot.id())
            .limit(MOST_NEIGHBOURS)
            .map(
                near ->
                    new GroupingView.Neighbour(
                        near.spot().id(),
                        String.format(
                            Locale.ROOT,
                            "%s, %.0f m %s",
                            near.spot().name(),
                            near.distanceM(),
                            Geodesy.bearing(spot.position(), near.spot().position())
                                .compassPoint())))
            .toList();
    return session
        .grouping()
        .standing(spot.id(), JoinDistance.of(session))
        .map(
            standing ->
                new GroupingView(neighbours, standing.hints(), standing.byOwner(), done(ctx, spot)))
        .orElseThrow();
  }

  private static GroupingView.@Nullable Done done(Context ctx, Spot spot) {
    String did = ctx.queryParam("did");
    String shots = query(ctx, "shots");
    String from = query(ctx, "from");
    String here = "/spots/" + spot.id();
    return switch (did == null ? "" : did) {
      case "joined" ->
          new GroupingView.Done(
              "The other spot is now part of this one.",
              "Split its shots off again",
              here + "/split",
              List.of(new GroupingView.Field("shots", shots)));
      case "split" ->
          new GroupingView.Done(
              "The chosen shots are now a spot of their own. Later shots go to the nearer of the"
                  + " two.",
              "Join it back",
              "/spots/" + from + "/join",
              List.of(new GroupingView.Field("other", String.valueOf(spot.id()))));
      case "moved" ->
          new GroupingView.Done(
              "The chosen shots belong to this spot now.",
              "Move them back",
              here + "/move-shots",
              List.of(new GroupingView.Field("shots", shots), new GroupingView.Field("to", from)));
      case "placed" ->
          new GroupingView.Done(
              "The spot stands where you said, and its shots do not move it.",
              "Let its shots say where it is",
              here + "/position/release",
              List.of());
      default -> null;
    };
  }

  /** Numbers and commas from the address; anything else is left out. */
  private static String query(Context ctx, String name) {
    String text = ctx.queryParam(name);
    return text == null || !text.matches("[0-9,]*") ? "" : text;
  }
}

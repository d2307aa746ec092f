package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.lightledger.geo.Geodesy;
import org.lightledger.session.OpenHours;
import org.lightledger.session.OwnDrive;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;

/** When a spot lets people in, and the owner's minutes from it to others. */
final class TravelRoutes {
  /** Spots so near are offered for drives, metres: own choice. */
  private static final double REACH_M = 60_000;

  /** So many at most: own choice. */
  private static final int MOST_OTHERS = 60;

  private static final int LONGEST_MIN = 720;

  private final House house;
  private final SpotRoutes spots;

  TravelRoutes(House house, SpotRoutes spots) {
    this.house = house;
    this.spots = spots;
  }

  void register(RoutesConfig routes) {
    routes.post("/spots/{id}/hours", this::setHours);
    routes.post("/spots/{id}/drives", this::addDrive);
    routes.post("/spots/{id}/drives/{from}/{to}/remove", this::removeDrive);
  }

  static TravelView view(LedgerSession session, Spot spot, Sent sent) {
    OpenHours hours = session.drives().hours(spot.id()).orElse(null);
    List<TravelView.Drive> drives = new ArrayList<>();
    for (OwnDrive drive : session.drives().of(spot.id())) {
      drives.add(
          new TravelView.Drive(drive.fromSpotId(), drive.toSpotId(), words(session, spot, drive)));
    }
    List<NearSpot> near = new ArrayList<>(session.spotSearch().within(spot.position(), REACH_M));
    near.removeIf(other -> other.spot().id() == spot.id());
    near.sort(
        Comparator.comparing(other -> Geodesy.distanceM(spot.position(), other.spot().position())));
    String picked = sent.text("drive", "drive-other", "");
    return new TravelView(
        sent.text("hours", "opens", hours == null ? "" : Words.hour(hours.opens())),
        sent.text("hours", "closes", hours == null ? "" : Words.hour(hours.closes())),
        drives,
        near.stream()
            .limit(MOST_OTHERS)
            .map(
                other ->
                    new AskPage.ListChoice(
                        String.valueOf(other.spot().id()),
                        other.spot().name(),
                        picked.equals(String.valueOf(other.spot().id()))))
            .toList(),
        sent.text("drive", "minutes", ""));
  }

  private static String words(LedgerSession session, Spot spot, OwnDrive drive) {
    boolean there = drive.fromSpotId() == spot.id();
    long otherId = there ? drive.toSpotId() : drive.fromSpotId();
    String other = session.spots().find(otherId).map(Spot::name).orElse("spot " + otherId);
    return (there ? "To " : "From ") + other + ": " + drive.minutes() + " min";
  }

  private void setHours(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    LocalTime opens = fields.clock("opens", "Opens");
    LocalTime closes = fields.clock("closes", "Closes");
    boolean none = fields.raw("opens").isEmpty() && fields.raw("closes").isEmpty();
    if (!none && fields.problems().isEmpty()) {
      if (opens == null || closes == null) {
        fields.problem(
            opens == null ? "opens" : "closes",
            opens == null ? "Opens" : "Closes",
            "expected both times or neither, found one");
      } else if (!opens.isBefore(closes)) {
        fields.problem(
            "closes",
            "Closes",
            "expected a time after "
                + Words.hour(opens)
                + ", found "
                + Words.hour(closes)
                + "; a place that stays open past midnight closes at 23:59");
      }
    }
    if (!fields.problems().isEmpty()) {
      spots.refuse(ctx, new Sent("hours", fields));
      return;
    }
    long id = House.id(ctx, "id");
    house
        .ledger()
        .change(
            session -> {
              SpotRoutes.find(ctx, session);
              if (opens == null || closes == null) {
                session.drives().removeHours(id);
              } else {
                session
                    .drives()
                    .setHours(id, new OpenHours(opens.withSecond(0), closes.withSecond(0)));
              }
            });
    ctx.redirect("/spots/" + id + "?saved=1#travel", HttpStatus.SEE_OTHER);
  }

  private void addDrive(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    int minutes = fields.needed("minutes", "Minutes", 0, LONGEST_MIN, " minutes");
    int other = fields.needed("drive-other", "Spot", 1, Integer.MAX_VALUE, "");
    boolean back = fields.raw("way").equals("back");
    long id = House.id(ctx, "id");
    if (fields.problems().isEmpty() && other == id) {
      fields.problem("drive-other", "Spot", "expected another spot, found this one");
    }
    if (!fields.problems().isEmpty()) {
      spots.refuse(ctx, new Sent("drive", fields));
      return;
    }
    house
        .ledger()
        .change(
            session -> {
              SpotRoutes.find(ctx, session);
              if (session.spots().find(other).isEmpty()) {
                throw PageProblem.notFound("There is no spot with this number.");
              }
              session
                  .drives()
                  .put(back ? new OwnDrive(other, id, minutes) : new OwnDrive(id, other, minutes));
            });
    ctx.redirect("/spots/" + id + "?saved=1#travel", HttpStatus.SEE_OTHER);
  }

  private void removeDrive(Context ctx) {
    long id = House.id(ctx, "id");
    house
        .ledger()
        .change(session -> session.drives().remove(House.id(ctx, "from"), House.id(ctx, "to")));
    ctx.redirect("/spots/" + id + "#travel", HttpStatus.SEE_OTHER);
  }
}

package org.lightledger.web;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import org.lightledger.spot.Spot;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerException;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.StudioPlace;
import org.lightledger.surroundings.SkylineKeeper;

/** What every page of the owner needs. */
final class House {
  private final Ledger ledger;
  private final Pages pages;
  private final Assets assets;
  private final Clock clock;
  private final SkylineKeeper skylines;

  House(Ledger ledger, Pages pages, Assets assets, Clock clock, SkylineKeeper skylines) {
    this.ledger = ledger;
    this.pages = pages;
    this.assets = assets;
    this.clock = clock;
    this.skylines = skylines;
  }

  Ledger ledger() {
    return ledger;
  }

  Pages pages() {
    return pages;
  }

  Clock clock() {
    return clock;
  }

  SkylineKeeper skylines() {
    return skylines;
  }

  void show(Context ctx, String template, String title, Frame.Room room, Object page) {
    Frame frame =
        ledger.read(
            session ->
                new Frame(
                    title,
                    room,
                    assets,
                    waiting(session),
                    session.shares().news(),
                    BaseMap.of(session.maps()),
                    Access.isLoggedIn(ctx)));
    pages.show(ctx, template, frame, page);
  }

  /** How many shots wait for the owner. */
  int waiting() {
    return ledger.read(House::waiting);
  }

  private static int waiting(LedgerSession session) {
    return (int) session.shots().counts().needingAttention();
  }

  /**
   * Takes what was deleted out of the file itself. It is gone from the ledger by now; what may be
   * left is a trace in the write-ahead log.
   */
  void scrub(String done) {
    try {
      ledger.scrub();
    } catch (LedgerException e) {
      throw new PageProblem(
          503,
          done + ", and not yet scrubbed",
          Words.capital(e.getMessage() + "."),
          "Close other programs that use the ledger, then stop Lightledger: the last one to close"
              + " empties the log.",
          List.of());
    }
  }

  /** The date at the place where most spots lie. */
  LocalDate today(List<Spot> spots) {
    return LocalDate.ofInstant(clock.instant(), zone(spots));
  }

  /** The zone in which most spots lie, and UTC when none is known. */
  ZoneId zone(List<Spot> spots) {
    return StudioPlace.zone(spots);
  }

  /** The number in a path; anything else is not found. */
  static long id(Context ctx, String name) {
    String text = ctx.pathParam(name);
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      throw PageProblem.notFound("Expected a number in the address, found something else.");
    }
  }
}

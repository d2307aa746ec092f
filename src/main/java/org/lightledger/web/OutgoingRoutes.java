package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.lightledger.session.outgoing.Dossier;
import org.lightledger.session.outgoing.SessionRedaction;
import org.lightledger.store.DossierReader;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.CalendarKeeping;

/** The call sheet and the calendar file of a session. */
final class OutgoingRoutes {
  private final House house;
  private final CallSheets sheets;
  private final CalendarKeeping calendar;

  OutgoingRoutes(House house, CallSheets sheets, CalendarKeeping calendar) {
    this.house = house;
    this.sheets = sheets;
    this.calendar = calendar;
  }

  void register(RoutesConfig routes) {
    routes.get("/sessions/{id}/call-sheet", this::sheet);
    routes.get("/sessions/{id}/call-sheet.pdf", this::pdf);
    routes.get("/sessions/{id}/calendar.ics", this::calendar);
  }

  private void sheet(Context ctx) {
    long id = planned(ctx);
    CallSheetPage page = sheets.page(id);
    house.show(ctx, "callsheet", "Call sheet", Frame.Room.NONE, page);
  }

  private void pdf(Context ctx) {
    long id = planned(ctx);
    ctx.header("Content-Disposition", "inline; filename=\"call-sheet-" + id + ".pdf\"");
    ctx.contentType("application/pdf").result(sheets.pdf(id));
  }

  private void calendar(Context ctx) {
    long id = House.id(ctx, "id");
    String text =
        calendar
            .file(id)
            .orElseThrow(() -> PageProblem.notFound("There is no session with this number."));
    ctx.header("Content-Disposition", "attachment; filename=\"session-" + id + ".ics\"");
    ctx.contentType("text/calendar; charset=utf-8").result(text.getBytes(StandardCharsets.UTF_8));
  }

  private long planned(Context ctx) {
    Dossier dossier = house.ledger().read(session -> find(ctx, session));
    if (dossier.plan() == null) {
      throw new PageProblem(
          409,
          "Not planned yet",
          SessionRedaction.firstName(dossier.client())
              + "'s session has no plan, and a call sheet shows the plan.",
          "Plan the session first.",
          List.of());
    }
    return dossier.session().id();
  }

  static Dossier find(Context ctx, LedgerSession session) {
    return DossierReader.read(session, House.id(ctx, "id"))
        .orElseThrow(() -> PageProblem.notFound("There is no session with this number."));
  }
}

package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answers;
import org.lightledger.ask.Asker;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.web.chart.LightGlyph;
import org.lightledger.web.chart.LightRing;

/** The question, its answers, and what the lights mean. */
final class AskRoutes {
  private static final int MOST_ANSWERS = 60;

  private final House house;
  private final Asker asker;

  AskRoutes(House house, Asker asker) {
    this.house = house;
    this.asker = asker;
  }

  void register(RoutesConfig routes) {
    routes.get("/", this::ask);
    routes.get("/light", this::lights);
  }

  private void ask(Context ctx) {
    AskPage page = house.ledger().read(session -> page(ctx, session));
    if (!page.problems().isEmpty()) {
      ctx.status(422);
    }
    if (!Pages.wantsPart(ctx)) {
      house.show(ctx, "ask", "Ask", Frame.Room.ASK, page);
    } else if (page.answers() != null) {
      house.pages().part(ctx, "answers", page.answers());
    } else {
      house.pages().part(ctx, "unasked", page);
    }
  }

  private AskPage page(Context ctx, LedgerSession session) {
    LedgerStock stock = new LedgerStock(session);
    List<Spot> spots = session.spots().all();
    LocalDate today = house.today(spots);
    AskForm.Read read = AskForm.read(ctx.queryParamMap(), today);
    AskForm form = read.form();
    if (form == null) {
      return AskViews.page(read.fallback(), today, read.problems(), null);
    }
    Answers answers = asker.ask(form.question(), stock, MOST_ANSWERS);
    return AskViews.page(
        form,
        today,
        List.of(),
        AskViews.answers(form, answers, spots.isEmpty(), lists(ctx, session)));
  }

  private static List<AskPage.ListChoice> lists(Context ctx, LedgerSession session) {
    @Nullable String picked = ctx.queryParam("list");
    return session.shortlists().all().stream()
        .map(
            (Shortlist list) -> {
              String id = String.valueOf(list.id());
              return new AskPage.ListChoice(id, list.title(), id.equals(picked));
            })
        .toList();
  }

  private void lights(Context ctx) {
    List<LightPage.Row> rows = LightPage.rows(LightGlyph::of);
    house.show(
        ctx,
        "light",
        "What each light means",
        Frame.Room.NONE,
        new LightPage(LightRing.draw(), rows));
  }
}

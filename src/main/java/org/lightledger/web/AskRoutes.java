package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Answers;
import org.lightledger.ask.Asker;
import org.lightledger.ask.Stock;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Spot;
import org.lightledger.studio.DrivenStock;
import org.lightledger.studio.RegionRoads;
import org.lightledger.web.chart.LightGlyph;
import org.lightledger.web.chart.LightRing;

/** The question, its answers, and what the lights mean. */
final class AskRoutes {
  private static final int MOST_ANSWERS = 60;

  private final House house;
  private final Asker asker;
  private final Stock stock;
  private final RegionRoads roads;

  AskRoutes(House house, Asker asker, Stock stock, RegionRoads roads) {
    this.house = house;
    this.asker = asker;
    this.stock = stock;
    this.roads = roads;
  }

  void register(RoutesConfig routes) {
    routes.get("/", this::ask);
    routes.get("/light", this::lights);
  }

  private void ask(Context ctx) {
    AskPage page = page(ctx);
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

  private AskPage page(Context ctx) {
    List<Spot> spots = stock.spots(null);
    LocalDate today = house.today(spots);
    AskForm.Read read = AskForm.read(ctx.queryParamMap(), today);
    AskForm form = read.form();
    if (!read.problems().isEmpty()) {
      return AskViews.page(read, today, null);
    }
    house.skylines().settle(SpotRoutes.SETTLE);
    DrivenStock driven = driven(form);
    Answers answers = asker.ask(form.question(), driven == null ? stock : driven, MOST_ANSWERS);
    AskPage.AnswersView view =
        AskViews.answers(
            form,
            answers,
            spotId -> driven == null ? Optional.empty() : driven.drive(spotId),
            house.ledger().read(session -> session.hazards().all()),
            spots.isEmpty(),
            lists(ctx.queryParam("list")),
            skylines(),
            kept(form, ctx.queryParam("kept") != null));
    return AskViews.page(read, today, view);
  }

  private @Nullable DrivenStock driven(AskForm form) {
    Integer minutes = form.driveMinutes();
    GeoPoint from = form.near();
    return minutes == null || from == null
        ? null
        : new DrivenStock(stock, house.ledger().read(roads::drives), from, minutes);
  }

  private AskPage.KeptQuestions kept(AskForm form, boolean open) {
    String query = form.href().substring("/?".length());
    return new AskPage.KeptQuestions(
        open,
        query,
        house.ledger().read(session -> session.questions().all()).stream()
            .map(
                kept ->
                    new AskPage.KeptQuestion(
                        kept.id(), kept.name(), "/?" + kept.query(), kept.query().equals(query)))
            .toList());
  }

  private AskPage.Skylines skylines() {
    long waiting = house.ledger().read(session -> session.skylines().countDue());
    return new AskPage.Skylines(
        waiting == 0 ? "" : Words.count((int) waiting, "spot", "spots"),
        house.skylines().problem());
  }

  private List<ShortlistChoice> lists(@Nullable String picked) {
    Instant now = house.clock().instant();
    return house.ledger().read(session -> ShortlistChoice.all(session, picked, now));
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

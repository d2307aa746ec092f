package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.lightledger.indexing.SpotAdding;
import org.lightledger.spot.Observation;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;

/** The stock of spots. */
final class SpotListRoutes {
  private static final List<Map.Entry<String, String>> KINDS =
      List.of(
          Map.entry("", "all spots"),
          Map.entry("unfaced", "without a facing"),
          Map.entry("open", "open, any way works"),
          Map.entry("cautions", "with cautions noted"));

  private final House house;
  private final SpotExchange exchange;

  SpotListRoutes(House house, SpotAdding adding) {
    this.house = house;
    this.exchange = new SpotExchange(house, adding);
  }

  void register(RoutesConfig routes) {
    routes.get("/spots", ctx -> list(ctx, ExchangeView.NOTHING));
    routes.get("/spots/export", exchange::send);
    routes.post("/spots/import", ctx -> list(ctx, exchange.take(ctx)));
  }

  private void list(Context ctx, ExchangeView exchanged) {
    String words = queryText(ctx, "q");
    String only = queryText(ctx, "only");
    String deleted = queryText(ctx, "deleted");
    SpotsPage page = house.ledger().read(session -> list(session, words, only, deleted, exchanged));
    if (Pages.wantsPart(ctx)) {
      house.pages().part(ctx, "spotrows", page);
    } else {
      house.show(ctx, "spots", "Spots", Frame.Room.SPOTS, page);
    }
  }

  private static SpotsPage list(
      LedgerSession session, String words, String only, String deleted, ExchangeView exchanged) {
    List<Spot> all = session.spots().all();
    Map<Long, List<Observation>> observations = session.observations().all();
    List<SpotsPage.Row> rows =
        all.stream()
            .filter(spot -> matches(spot, words) && isKind(spot, only))
            .sorted(
                Comparator.comparing((Spot spot) -> spot.name().toLowerCase(Locale.ROOT))
                    .thenComparing(Spot::id))
            .map(
                spot -> SpotViews.row(spot, observations.getOrDefault(spot.id(), List.of()).size()))
            .toList();
    String headline =
        rows.size() == all.size()
            ? Words.count(all.size(), "spot", "spots")
            : rows.size() + " of " + Words.count(all.size(), "spot", "spots");
    List<SpotsPage.Kind> kinds =
        KINDS.stream()
            .map(
                kind ->
                    new SpotsPage.Kind(kind.getKey(), kind.getValue(), kind.getKey().equals(only)))
            .toList();
    List<SpotsPage.Gone> gone =
        session.droppedSpots().all().stream()
            .map(
                dropped ->
                    new SpotsPage.Gone(
                        dropped.spot().id(),
                        dropped.spot().name(),
                        Words.count((int) dropped.shots(), "shot", "shots"),
                        String.valueOf(dropped.spot().id()).equals(deleted)))
            .toList();
    return new SpotsPage(headline, words, only, kinds, rows, all.isEmpty(), gone, exchanged);
  }

  private static boolean matches(Spot spot, String words) {
    String area = spot.area();
    String text =
        String.join("\n", spot.name(), area == null ? "" : area, spot.notes(), spot.cautions())
            .toLowerCase(Locale.ROOT);
    for (String word : words.toLowerCase(Locale.ROOT).split("\\s+")) {
      if (!text.contains(word)) {
        return false;
      }
    }
    return true;
  }

  private static boolean isKind(Spot spot, String only) {
    return switch (only) {
      case "unfaced" -> spot.facings().isEmpty() && !spot.open();
      case "open" -> spot.open();
      case "cautions" -> !spot.cautions().isEmpty();
      default -> true;
    };
  }

  private static String queryText(Context ctx, String name) {
    String text = ctx.queryParam(name);
    return text == null ? "" : text.strip();
  }
}

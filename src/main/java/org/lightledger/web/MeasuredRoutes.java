package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.lightledger.geo.magnetic.MagneticField;
import org.lightledger.geo.magnetic.WorldMagneticModel;
import org.lightledger.skyline.MeasuredSkyline;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;

/** The skyline of a spot as its owner measured it: typed in, or as a list. */
final class MeasuredRoutes {
  private static final int EMPTY_ROWS = 4;
  private static final int MOST_ROWS = 1000;
  private static final int MOST_LIST_BYTES = 200_000;

  private final House house;
  private final SpotRoutes spots;

  MeasuredRoutes(House house, SpotRoutes spots) {
    this.house = house;
    this.spots = spots;
  }

  void register(RoutesConfig routes) {
    routes.post("/spots/{id}/measured", this::rows);
    routes.post("/spots/{id}/measured/list", this::list);
    routes.post("/spots/{id}/measured/remove", this::remove);
  }

  /** What the spot's page shows of it. */
  static MeasuredView view(Context ctx, House house, LedgerSession session, Spot spot) {
    List<MeasuredSkyline.Point> points = session.skylines().measured(spot.id());
    List<MeasuredView.Row> rows = new ArrayList<>();
    for (MeasuredSkyline.Point point : points) {
      rows.add(
          new MeasuredView.Row(Words.plain(point.azimuthDeg()), Words.plain(point.altitudeDeg())));
    }
    return new MeasuredView(
        withEmptyRows(rows),
        "",
        points.isEmpty() ? "" : Words.count(points.size(), "reading", "readings"),
        north(house, spot),
        ctx.queryParam("measured") != null);
  }

  private static List<MeasuredView.Row> withEmptyRows(List<MeasuredView.Row> rows) {
    List<MeasuredView.Row> all = new ArrayList<>(rows);
    for (int i = 0; i < EMPTY_ROWS; i++) {
      all.add(new MeasuredView.Row("", ""));
    }
    return all;
  }

  /** Where a compass points is no matter of taste: it is told for the place and the present. */
  private static String north(House house, Spot spot) {
    return WorldMagneticModel.field(spot.position(), 0.0, house.clock().instant())
        .map(MagneticField::declinationDeg)
        .map(
            declinationDeg ->
                String.format(
                    Locale.ROOT,
                    "A compass needle points %.1f° %s of true north here: %s its reading.",
                    Math.abs(declinationDeg),
                    declinationDeg < 0 ? "west" : "east",
                    declinationDeg < 0 ? "take that off" : "add that to"))
        .orElse("");
  }

  private void rows(Context ctx) {
    Spot spot = house.ledger().read(session -> SpotRoutes.find(ctx, session));
    List<String> azimuths = ctx.formParams("azimuth");
    List<String> altitudes = ctx.formParams("altitude");
    List<MeasuredView.Row> sent = new ArrayList<>();
    List<FieldProblem> problems = new ArrayList<>();
    List<MeasuredSkyline.Point> points = new ArrayList<>();
    for (int i = 0; i < Math.min(MOST_ROWS, Math.max(azimuths.size(), altitudes.size())); i++) {
      MeasuredView.Row row = new MeasuredView.Row(text(azimuths, i), text(altitudes, i));
      if (row.azimuth().isEmpty() && row.altitude().isEmpty()) {
        continue;
      }
      sent.add(row);
      try {
        points.add(new MeasuredSkyline.Point(number(row.azimuth()), number(row.altitude())));
      } catch (IllegalArgumentException e) {
        problems.add(
            new FieldProblem("azimuth-" + (sent.size() - 1), "Reading " + sent.size(), message(e)));
      }
    }
    MeasuredView again = new MeasuredView(withEmptyRows(sent), "", "", north(house, spot), false);
    if (points.isEmpty() && problems.isEmpty()) {
      problems.add(
          new FieldProblem(
              "azimuth-0",
              "Readings",
              "expected at least 2 readings of azimuth and altitude, found none"));
    }
    keep(ctx, spot, points, problems, again, "azimuth-0");
  }

  private static String text(List<String> values, int i) {
    return i < values.size() ? values.get(i).strip() : "";
  }

  private static double number(String text) {
    try {
      return Double.parseDouble(text.replace(',', '.'));
    } catch (NumberFormatException e) {
      throw new IllegalArgumentException(
          "expected azimuth and altitude in degrees, found " + Fields.found(text), e);
    }
  }

  private static String message(IllegalArgumentException e) {
    return String.valueOf(e.getMessage());
  }

  private void list(Context ctx) {
    Spot spot = house.ledger().read(session -> SpotRoutes.find(ctx, session));
    String text = listText(ctx);
    List<MeasuredSkyline.Point> points = List.of();
    List<FieldProblem> problems = new ArrayList<>();
    if (text.isBlank()) {
      problems.add(
          new FieldProblem(
              "list",
              "List",
              "expected lines of azimuth,altitude such as 135.5,8.2, or a file of them, found"
                  + " nothing"));
    } else {
      try {
        points = MeasuredSkyline.points(text.lines().toList());
      } catch (IllegalArgumentException e) {
        problems.add(new FieldProblem("list", "List", message(e)));
      }
    }
    MeasuredView stored = house.ledger().read(session -> view(ctx, house, session, spot));
    MeasuredView again =
        new MeasuredView(stored.rows(), text, stored.readings(), stored.north(), false);
    keep(ctx, spot, points, problems, again, "list");
  }

  /** The file when there is one, else what was pasted. */
  private static String listText(Context ctx) {
    UploadedFile file = ctx.isMultipartFormData() ? ctx.uploadedFile("file") : null;
    if (file == null || file.size() == 0) {
      String pasted = ctx.formParam("list");
      return pasted == null ? "" : pasted;
    }
    try (InputStream in = file.content()) {
      return new String(in.readNBytes(MOST_LIST_BYTES), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void keep(
      Context ctx,
      Spot spot,
      List<MeasuredSkyline.Point> points,
      List<FieldProblem> problems,
      MeasuredView again,
      String field) {
    List<FieldProblem> all = new ArrayList<>(problems);
    if (all.isEmpty()) {
      try {
        MeasuredSkyline.of(points);
      } catch (IllegalArgumentException e) {
        all.add(new FieldProblem(field, "Readings", message(e)));
      }
    }
    if (!all.isEmpty()) {
      spots.refuse(ctx, again, all);
      return;
    }
    house.ledger().change(session -> session.skylines().measure(spot.id(), points));
    ctx.redirect("/spots/" + spot.id() + "?measured=1#measured", HttpStatus.SEE_OTHER);
  }

  private void remove(Context ctx) {
    Spot spot = house.ledger().read(session -> SpotRoutes.find(ctx, session));
    house.ledger().change(session -> session.skylines().measure(spot.id(), List.of()));
    ctx.redirect("/spots/" + spot.id() + "#measured", HttpStatus.SEE_OTHER);
  }
}

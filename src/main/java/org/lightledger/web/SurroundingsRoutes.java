package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.MapAdding;
import org.lightledger.store.ElevationStore;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredMap;
import org.lightledger.surroundings.ElevationCheck;

/** What skylines are made from: elevation files, which stay where the owner keeps them. */
final class SurroundingsRoutes {
  private static final int MOST_PATH = 4000;

  private final House house;

  SurroundingsRoutes(House house) {
    this.house = house;
  }

  void register(RoutesConfig routes) {
    routes.get("/surroundings", ctx -> show(ctx, "", List.of()));
    routes.post("/surroundings/elevation", this::add);
    routes.post("/surroundings/elevation/{number}/remove", this::remove);
    routes.post("/surroundings/maps/{number}/remove", this::removeMap);
  }

  private void show(Context ctx, String path, List<FieldProblem> problems) {
    house.skylines().settle(SpotRoutes.SETTLE);
    SurroundingsPage page = house.ledger().read(session -> page(ctx, session, path, problems));
    if (Pages.wantsPart(ctx)) {
      house.pages().part(ctx, "skystate", page);
    } else {
      house.show(ctx, "surroundings", "Surroundings", Frame.Room.NONE, page);
    }
  }

  private SurroundingsPage page(
      Context ctx, LedgerSession session, String path, List<FieldProblem> problems) {
    long spots = session.spots().all().size();
    long waiting = session.skylines().countDue();
    int known = session.skylines().spotsWithSkyline().size();
    return new SurroundingsPage(
        session.elevation().all().stream().map(SurroundingsRoutes::row).toList(),
        session.maps().all().stream().map(SurroundingsRoutes::row).toList(),
        path,
        problems,
        done(ctx),
        state(spots, known, waiting),
        waiting > 0,
        house.skylines().problem());
  }

  private static String state(long spots, int known, long waiting) {
    String all = Words.count((int) spots, "spot", "spots");
    String text = "Something is known of the skyline of " + known + " of " + all + ".";
    return waiting == 0
        ? text
        : text + " " + Words.count((int) waiting, "skyline is", "skylines are") + " to be made.";
  }

  private static SurroundingsPage.ElevationRow row(ElevationStore.ElevationFile file) {
    return new SurroundingsPage.ElevationRow(
        file.id(),
        file.path().toString(),
        Files.isDirectory(file.path()) ? "folder" : "file",
        Files.isReadable(file.path()));
  }

  private static SurroundingsPage.MapRow row(StoredMap map) {
    return new SurroundingsPage.MapRow(
        map.id(),
        map.fileName(),
        Words.count(map.obstructions(), "building or tree", "buildings and trees")
            + ", "
            + Words.count(map.features(), "other thing", "other things")
            + (map.problems() == 0 ? "" : "; " + map.problems() + " left out or put right"));
  }

  private void removeMap(Context ctx) {
    long id = House.id(ctx, "number");
    new MapAdding(house.ledger(), house.clock()).remove(id);
    ctx.redirect("/surroundings?did=removed", HttpStatus.SEE_OTHER);
  }

  private static String done(Context ctx) {
    String did = ctx.queryParam("did");
    return switch (did == null ? "" : did) {
      case "added" -> "Added. The skylines of all spots are worked out anew.";
      case "known" -> "The ledger knew this elevation already.";
      case "removed" -> "Removed from the ledger; the files themselves stay.";
      default -> "";
    };
  }

  private void add(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String text = fields.required("path", "Path", MOST_PATH);
    Path path = text.isEmpty() ? null : usable(fields, text);
    if (path == null) {
      ctx.status(422);
      show(ctx, text, fields.problems());
      return;
    }
    boolean added =
        house.ledger().write(session -> session.elevation().add(path, house.clock().instant()));
    ctx.redirect("/surroundings?did=" + (added ? "added" : "known"), HttpStatus.SEE_OTHER);
  }

  /** The path when elevation can be read there; everything is opened once. */
  private static @Nullable Path usable(Fields fields, String text) {
    try {
      Path path = Path.of(text);
      if (!path.isAbsolute() || !Files.isReadable(path)) {
        fields.problem(
            "path",
            "Path",
            "expected the full path of a file or folder that exists on this computer and that you"
                + " may read, found "
                + Fields.quoted(text));
        return null;
      }
      ElevationCheck.files(List.of(path));
      return path;
    } catch (InvalidPathException e) {
      fields.problem("path", "Path", "expected a path, found " + Fields.quoted(text));
    } catch (IllegalArgumentException | UncheckedIOException e) {
      fields.problem("path", "Path", String.valueOf(e.getMessage()));
    }
    return null;
  }

  private void remove(Context ctx) {
    long id = House.id(ctx, "number");
    house.ledger().change(session -> session.elevation().remove(id));
    ctx.redirect("/surroundings?did=removed", HttpStatus.SEE_OTHER);
  }
}

package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.lightledger.geo.GeoPoint;
import org.lightledger.skyline.buildings.Obstruction;
import org.lightledger.skyline.buildings.ObstructionFile;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredObstruction;

/** Buildings and trees that the owner draws by hand, on a map or in numbers. */
final class ObstructionRoutes {
  private static final String HOME = "/surroundings/obstructions";

  /** A district with its houses; larger ones come as a map: own choice. */
  private static final int MOST_FILE_BYTES = 4_000_000;

  private static final int MOST_OF_FILE = 2000;
  private static final int MOST_NOTES = 20;
  private static final int MOST_NAME = 120;

  /** How long a change waits for the skylines that it changes: own choice. */
  private static final Duration AFTER_CHANGE = Duration.ofSeconds(2);

  private final House house;
  private final ShadowRoutes shadows;

  ObstructionRoutes(House house, ShadowRoutes shadows) {
    this.house = house;
    this.shadows = shadows;
  }

  /** What was sent, and what came of it. */
  private record Sent(
      ObstructionsPage.@Nullable Form form,
      List<FieldProblem> problems,
      String done,
      List<String> notes) {
    static final Sent NOTHING = new Sent(null, List.of(), "", List.of());
  }

  void register(RoutesConfig routes) {
    routes.get(HOME, ctx -> show(ctx, null, Sent.NOTHING));
    routes.post(HOME, this::add);
    routes.post(HOME + "/file", this::file);
    routes.get(HOME + "/{number}", ctx -> show(ctx, drawn(ctx), Sent.NOTHING));
    routes.post(HOME + "/{number}", this::change);
    routes.post(HOME + "/{number}/remove", this::remove);
  }

  private StoredObstruction drawn(Context ctx) {
    long id = House.id(ctx, "number");
    return house
        .ledger()
        .read(session -> session.obstructions().find(id))
        .filter(StoredObstruction::byOwner)
        .orElseThrow(() -> PageProblem.notFound("You drew nothing with this number."));
  }

  private void show(Context ctx, @Nullable StoredObstruction changing, Sent sent) {
    house.skylines().settle(SpotRoutes.SETTLE);
    ObstructionsPage page = house.ledger().read(session -> page(ctx, session, changing, sent));
    if (!page.problems().isEmpty()) {
      ctx.status(422);
    }
    house.show(ctx, "obstructions", "Drawn by hand", Frame.Room.NONE, page);
  }

  private ObstructionsPage page(
      Context ctx, LedgerSession session, @Nullable StoredObstruction changing, Sent sent) {
    Optional<Spot> about = about(ctx, session);
    List<Spot> spots = session.spots().all();
    GeoPoint place = about.or(() -> spots.stream().findFirst()).map(Spot::position).orElse(null);
    ObstructionsPage.Form form = sent.form();
    Fields asked = new Fields(ctx::queryParams);
    ObstructionsPage.Shadows shown =
        shadows.around(
            asked, session, place, about.map(spot -> String.valueOf(spot.id())).orElse(""));
    List<FieldProblem> problems = new ArrayList<>(sent.problems());
    problems.addAll(asked.problems());
    return new ObstructionsPage(
        session.obstructions().ofOwner().stream().map(stored -> row(stored, changing)).toList(),
        form != null
            ? form
            : changing == null
                ? ObstructionFields.empty()
                : ObstructionFields.of(changing.obstruction()),
        changing == null ? null : changing.id(),
        changing == null ? "" : changing.obstruction().id(),
        shown,
        spots.stream()
            .map(
                spot ->
                    new ObstructionsPage.Place(
                        spot.name(),
                        SpotViews.coordinate(spot.position().latitudeDeg()),
                        SpotViews.coordinate(spot.position().longitudeDeg()),
                        about.isPresent() && about.get().id() == spot.id()))
            .toList(),
        problems,
        sent.done().isEmpty() ? done(ctx) : sent.done(),
        sent.notes());
  }

  /** The spot that the page is about; a number that is none is no harm. */
  private static Optional<Spot> about(Context ctx, LedgerSession session) {
    String text = ctx.queryParam("spot");
    return text != null && text.matches("\\d{1,18}")
        ? session.spots().find(Long.parseLong(text))
        : Optional.empty();
  }

  private static ObstructionsPage.Row row(
      StoredObstruction stored, @Nullable StoredObstruction changing) {
    Obstruction drawn = stored.obstruction();
    return new ObstructionsPage.Row(
        stored.id(),
        drawn.id(),
        words(drawn),
        GeoJsonText.area(drawn.outline()).toString(),
        changing != null && changing.id() == stored.id());
  }

  private static String words(Obstruction drawn) {
    String kind = ObstructionFields.code(drawn.kind()).replace('-', ' ');
    String height = Words.plain(drawn.heightM()) + " m high";
    String from = drawn.minHeightM() > 0 ? ", from " + Words.plain(drawn.minHeightM()) + " m" : "";
    return kind
        + ", "
        + height
        + from
        + switch (drawn.heightSource()) {
          case GIVEN -> "";
          case LEVELS -> ", by its storeys";
          case ASSUMED -> ", which is assumed";
        };
  }

  private static String done(Context ctx) {
    String did = ctx.queryParam("did");
    return switch (did == null ? "" : did) {
      case "added" -> "Added. The skylines of the spots around it are worked out anew.";
      case "changed" -> "Changed. The skylines of the spots around it are worked out anew.";
      case "removed" -> "Removed. The skylines of the spots around it are worked out anew.";
      default -> "";
    };
  }

  private void add(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    ObstructionFields form = new ObstructionFields(fields, null);
    Obstruction drawn = form.read();
    if (drawn == null) {
      show(ctx, null, new Sent(form.sent(), fields.problems(), "", List.of()));
      return;
    }
    house.ledger().write(session -> session.obstructions().addByOwner(drawn));
    back(ctx, "added");
  }

  private void change(Context ctx) {
    StoredObstruction stored = drawn(ctx);
    Fields fields = new Fields(ctx::formParams);
    ObstructionFields form = new ObstructionFields(fields, stored.obstruction());
    Obstruction now = form.read();
    if (now == null) {
      show(ctx, stored, new Sent(form.sent(), fields.problems(), "", List.of()));
      return;
    }
    house.ledger().change(session -> session.obstructions().changeByOwner(stored.id(), now));
    back(ctx, "changed");
  }

  private void remove(Context ctx) {
    StoredObstruction stored = drawn(ctx);
    house.ledger().change(session -> session.obstructions().removeByOwner(stored.id()));
    back(ctx, "removed");
  }

  private void back(Context ctx, String did) {
    house.skylines().settle(AFTER_CHANGE);
    String spot = ctx.queryParam("spot");
    boolean about = spot != null && spot.matches("\\d{1,18}");
    ctx.redirect(
        HOME + "?" + (about ? "spot=" + spot + "&" : "") + "did=" + did + "#drawn",
        HttpStatus.SEE_OTHER);
  }

  /** One bad feature of a file does not stop the others; what is known already is left out. */
  private void file(Context ctx) {
    UploadedFile file = ctx.isMultipartFormData() ? ctx.uploadedFile("file") : null;
    if (file == null || file.size() == 0) {
      refuse(ctx, "expected a GeoJSON file, found nothing", List.of());
      return;
    }
    if (file.size() > MOST_FILE_BYTES) {
      refuse(
          ctx, "expected at most 4 MB, found more; cut out what stands near your spots", List.of());
      return;
    }
    ObstructionFile.Read read;
    try (InputStream in = file.content()) {
      read = ObstructionFile.read(Uploads.lastName(file.filename()), in.readAllBytes());
    } catch (IOException e) {
      refuse(ctx, String.valueOf(e.getMessage()), List.of());
      return;
    }
    List<String> notes = new ArrayList<>(read.problems());
    List<Obstruction> usable = new ArrayList<>();
    for (Obstruction found : read.obstructions()) {
      String problem = problem(found);
      if (problem.isEmpty()) {
        usable.add(found);
      } else {
        notes.add(shortened(found.id()) + ": " + problem);
      }
    }
    if (usable.isEmpty() || usable.size() > MOST_OF_FILE) {
      String expected =
          "expected 1 to "
              + MOST_OF_FILE
              + " buildings or trees that can be used, found "
              + usable.size();
      refuse(ctx, expected, told(notes));
      return;
    }
    int added = house.ledger().write(session -> addNew(session, usable));
    house.skylines().settle(AFTER_CHANGE);
    int known = usable.size() - added;
    String done =
        Words.count(added, "was", "were")
            + " added from the file"
            + (known == 0 ? "" : "; " + Words.count(known, "was", "were") + " known already")
            + ".";
    show(ctx, null, new Sent(null, List.of(), done, told(notes)));
  }

  private static String problem(Obstruction found) {
    if (found.id().isBlank()) {
      return "expected a name that is not blank";
    }
    if (found.id().length() > MOST_NAME) {
      return "expected a name of at most " + MOST_NAME + " characters";
    }
    return found.outline().isValid()
        ? ""
        : "expected an outline whose sides do not cross, found one that does; draw it anew";
  }

  private static String shortened(String name) {
    return name.isBlank() ? "one without a name" : Fields.quoted(name);
  }

  private static List<String> told(List<String> notes) {
    if (notes.size() <= MOST_NOTES) {
      return List.copyOf(notes);
    }
    List<String> told = new ArrayList<>(notes.subList(0, MOST_NOTES));
    told.add("And " + (notes.size() - MOST_NOTES) + " more like these.");
    return told;
  }

  private static int addNew(LedgerSession session, List<Obstruction> found) {
    List<Obstruction> known =
        new ArrayList<>(
            session.obstructions().ofOwner().stream().map(StoredObstruction::obstruction).toList());
    int added = 0;
    for (Obstruction one : found) {
      if (known.stream().noneMatch(other -> same(one, other))) {
        session.obstructions().addByOwner(one);
        known.add(one);
        added++;
      }
    }
    return added;
  }

  private static boolean same(Obstruction one, Obstruction other) {
    return one.id().equals(other.id())
        && one.kind() == other.kind()
        && one.heightM() == other.heightM()
        && one.minHeightM() == other.minHeightM()
        && one.outline().equalsNorm(other.outline());
  }

  private void refuse(Context ctx, String message, List<String> notes) {
    show(
        ctx,
        null,
        new Sent(null, List.of(new FieldProblem("file", "GeoJSON file", message)), "", notes));
  }
}

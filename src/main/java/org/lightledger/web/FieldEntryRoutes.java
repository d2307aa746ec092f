package org.lightledger.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import io.javalin.http.HttpStatus;
import io.javalin.http.UploadedFile;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Correction;
import org.lightledger.correction.Corrections;
import org.lightledger.correction.PlaceWord;
import org.lightledger.field.FieldEntry;
import org.lightledger.field.TickRule;
import org.lightledger.geo.GeoPoint;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportReport;
import org.lightledger.session.Session;
import org.lightledger.shot.Problem;
import org.lightledger.skyline.SunOnSubject;
import org.lightledger.store.LedgerSession;

/**
 * Takes in what was done on the phone. Each entry has a name that the phone made; one that was
 * taken in before is answered again and changes nothing.
 */
final class FieldEntryRoutes {
  /** The latest moment that a ledger's time columns and a clock's words can hold alike. */
  private static final long LATEST_MS = Instant.parse("9999-01-01T00:00:00Z").toEpochMilli();

  private static final ObjectMapper JSON = new ObjectMapper();

  private final House house;
  private final ImportJobs jobs;
  private final Uploads uploads;
  private final Corrections corrections;

  FieldEntryRoutes(House house, ImportJobs jobs, Uploads uploads, Corrections corrections) {
    this.house = house;
    this.jobs = jobs;
    this.uploads = uploads;
    this.corrections = corrections;
  }

  void register(RoutesConfig routes) {
    routes.post("/field/shots", this::shot);
    routes.post("/field/ticks", this::tick);
  }

  /** What every entry says of itself. */
  private record Head(UUID uuid, Instant madeAt) {}

  private static @Nullable Head head(Fields fields) {
    UUID uuid = null;
    String text = fields.raw("id");
    try {
      uuid = UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      uuid = null;
    }
    if (uuid == null || !uuid.toString().equals(text.toLowerCase(Locale.ROOT))) {
      fields.problem(
          "id", "Name of the entry", "expected a UUID, found " + Fields.quoted(fields.raw("id")));
      return null;
    }
    Instant madeAt = moment(fields, "made", "When it was made");
    return madeAt == null ? null : new Head(uuid, madeAt);
  }

  private static @Nullable Instant moment(Fields fields, String field, String label) {
    Double millis = fields.number(field, label, 0, LATEST_MS, " ms");
    if (millis == null && fields.raw(field).isEmpty()) {
      fields.problem(field, label, "expected milliseconds of the Unix clock, found nothing");
    }
    return millis == null ? null : Instant.ofEpochMilli(millis.longValue());
  }

  private void tick(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Head head = head(fields);
    Instant takenAt = moment(fields, "taken", "When the list was taken along");
    long sessionId = fields.needed("session", "Session", 1, Integer.MAX_VALUE, "");
    long itemId = fields.needed("item", "Thing to pack", 1, Integer.MAX_VALUE, "");
    boolean done = fields.ticked("done");
    fields.check();
    Head entry = Objects.requireNonNull(head);
    Instant taken = Objects.requireNonNull(takenAt);
    Map<String, Object> body =
        house
            .ledger()
            .write(
                session -> {
                  FieldEntry kept =
                      session
                          .field()
                          .find(entry.uuid())
                          .orElseGet(() -> tick(session, entry, taken, sessionId, itemId, done));
                  return body(kept, session.packing().state(sessionId, itemId));
                });
    answer(ctx, body);
  }

  /** The answer that is kept, and what the ledger has now: another word may count meanwhile. */
  private Map<String, Object> body(FieldEntry entry, Optional<TickRule.State> state) {
    Map<String, Object> body = body(entry);
    body.put("packed", state.map(TickRule.State::done).orElse(null));
    body.put("asOf", house.clock().instant().toEpochMilli());
    return body;
  }

  private FieldEntry tick(
      LedgerSession session,
      Head head,
      Instant takenAt,
      long sessionId,
      long itemId,
      boolean done) {
    Instant now = house.clock().instant();
    String said =
        (done ? "packed" : "not packed") + ": thing " + itemId + " of session " + sessionId;
    Optional<TickRule.State> state = session.packing().state(sessionId, itemId);
    Optional<Session> booked = session.sessions().find(sessionId);
    FieldEntry.Outcome outcome;
    String told;
    if (state.isEmpty() || booked.isEmpty()) {
      outcome = FieldEntry.Outcome.GONE;
      told = "It was taken off the list meanwhile; your tick is kept in the ledger's notes.";
    } else {
      TickRule.Verdict verdict = TickRule.decide(state.get(), done, head.madeAt(), takenAt, now);
      String other =
          "the ledger had \""
              + (state.get().done() ? "packed" : "not packed")
              + "\""
              + since(state.get().since(), booked.get());
      if (verdict.applies()) {
        session.packing().tick(sessionId, itemId, done, verdict.at());
        outcome = FieldEntry.Outcome.TAKEN;
        told = verdict.conflict() ? "Yours was later and counts; " + other + "." : "Taken in.";
      } else {
        outcome = FieldEntry.Outcome.SUPERSEDED;
        told = "A later word counts: " + other + ". Yours is kept beside it.";
      }
    }
    FieldEntry entry =
        new FieldEntry(
            head.uuid(), FieldEntry.Kind.TICK, head.madeAt(), now, outcome, said, told, null);
    session.field().keep(entry);
    return entry;
  }

  private static String since(@Nullable Instant since, Session booked) {
    return since == null
        ? ""
        : " since " + Words.moment(since.atZone(booked.zone()).toOffsetDateTime());
  }

  private void shot(Context ctx) {
    if (ctx.contentLength() > WebServer.MOST_UPLOAD_MB * 1_000_000L) {
      throw new HttpResponseException(HttpStatus.CONTENT_TOO_LARGE.getCode());
    }
    Fields fields = new Fields(ctx::formParams);
    Head head = head(fields);
    SunOnSubject word = SunTap.read(fields.raw("word").isEmpty() ? "unsaid" : fields.raw("word"));
    Double latitude = fields.number("lat", "Latitude of the phone", -90, 90, "°");
    Double longitude = fields.number("lon", "Longitude of the phone", -180, 180, "°");
    fields.check();
    Head entry = Objects.requireNonNull(head);
    GeoPoint phone =
        latitude == null || longitude == null ? null : new GeoPoint(latitude, longitude);
    Optional<FieldEntry> before =
        house.ledger().read(session -> session.field().find(entry.uuid()));
    answer(ctx, body(before.isPresent() ? before.get() : takeIn(ctx, entry, word, phone)));
  }

  private FieldEntry takeIn(
      Context ctx, Head head, @Nullable SunOnSubject word, @Nullable GeoPoint phone) {
    List<UploadedFile> sent =
        ctx.uploadedFiles("file").stream().filter(file -> !file.filename().isEmpty()).toList();
    if (sent.size() != 1) {
      throw PageProblem.badFields(
          List.of(new FieldProblem("file", "File", "expected one file, found " + sent.size())));
    }
    Uploads.Kept kept = uploads.keep(sent);
    ImportReport report = jobs.now(kept.paths());
    uploads.tidy(kept, report, house.ledger());
    FileReport file = report.files().isEmpty() ? null : report.files().get(0);
    Long shotId = file == null ? null : file.shotId();
    if (file == null || shotId == null) {
      uploads.discard(kept);
      throw unreadable(file);
    }
    boolean placed = phone != null && placeByPhone(shotId, phone);
    return house
        .ledger()
        .write(
            session ->
                session
                    .field()
                    .find(head.uuid())
                    .orElseGet(() -> keep(session, head, word, file, shotId, placed)));
  }

  private static PageProblem unreadable(@Nullable FileReport file) {
    String why =
        file == null
            ? "It is no picture of a kind that is read."
            : String.join(" ", file.problems().stream().map(Problem::message).toList());
    return new PageProblem(
        422,
        "No shot could be read from this file",
        why,
        "It stays on the phone; save it from there, or take it again.",
        List.of());
  }

  /** Cameras of browsers often leave out the place; where the phone stood is next best. */
  private boolean placeByPhone(long shotId, GeoPoint phone) {
    boolean lacks =
        house
            .ledger()
            .read(session -> session.shots().find(shotId).orElseThrow().shot().position() == null);
    if (lacks) {
      corrections.apply(List.of(shotId), Correction.of(new PlaceWord.Point(phone)));
    }
    return lacks;
  }

  private FieldEntry keep(
      LedgerSession session,
      Head head,
      @Nullable SunOnSubject word,
      FileReport file,
      long shotId,
      boolean placed) {
    boolean known =
        file.status() == FileReport.Status.KNOWN || file.status() == FileReport.Status.JOINED;
    List<String> told = new ArrayList<>();
    told.add(known ? "The ledger has this shot already." : "In the ledger.");
    if (placed) {
      told.add("Its file says no place; it was placed where the phone stood.");
    }
    if (session.shots().find(shotId).orElseThrow().shot().needsAttention()) {
      told.add("It waits for you in the tray of shots that need attention.");
    }
    @Nullable SunOnSubject before = session.skylines().sunOnSubjectOf(shotId).orElse(null);
    if (before == null) {
      if (word != null) {
        session.skylines().setSunOnSubject(shotId, word);
      }
    } else if (word != null && before != word) {
      told.add(
          "It already says \""
              + before.label()
              + "\", which stays; yours, \""
              + word.label()
              + "\", is kept beside it.");
    }
    FieldEntry entry =
        new FieldEntry(
            head.uuid(),
            FieldEntry.Kind.SHOT,
            head.madeAt(),
            house.clock().instant(),
            known ? FieldEntry.Outcome.KNOWN : FieldEntry.Outcome.ADDED,
            word == null ? "no word on the sun" : word.label(),
            String.join(" ", told),
            shotId);
    session.field().keep(entry);
    return entry;
  }

  private static Map<String, Object> body(FieldEntry entry) {
    Map<String, Object> body = new LinkedHashMap<>();
    body.put("id", entry.uuid().toString());
    body.put("outcome", entry.outcome().name().toLowerCase(Locale.ROOT));
    body.put("told", entry.told());
    body.put("shotId", entry.shotId());
    return body;
  }

  private static void answer(Context ctx, Map<String, Object> body) {
    try {
      ctx.contentType("application/json").result(JSON.writeValueAsString(body));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("texts and numbers can always be written", e);
    }
  }
}

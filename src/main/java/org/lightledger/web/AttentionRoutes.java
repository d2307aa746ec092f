package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.lightledger.correction.Corrected;
import org.lightledger.correction.Correction;
import org.lightledger.correction.Corrections;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredCorrection;
import org.lightledger.store.StoredShot;
import org.lightledger.web.AttentionPage.Kind;

/** The tray: shots that wait for the owner, corrected one or many at once, and undone. */
final class AttentionRoutes {
  private final House house;
  private final Corrections corrections;

  AttentionRoutes(House house, Corrections corrections) {
    this.house = house;
    this.corrections = corrections;
  }

  void register(RoutesConfig routes) {
    routes.get("/attention", ctx -> show(ctx, Sent.NOTHING, null, List.of()));
    routes.post("/attention", this::fix);
    routes.post("/corrections/{id}/undo", this::undo);
  }

  /** What was sent with one group's form. */
  private record Sent(
      @Nullable Kind kind, Map<String, String> fields, String fix, Set<Long> ticked, boolean all) {
    static final Sent NOTHING = new Sent(null, Map.of(), "", Set.of(), false);
  }

  private void fix(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Kind kind = kind(fields);
    FixFields fix = new FixFields(ctx, fields, kind.code());
    boolean all = fields.ticked("all");
    Set<Long> ticked = all ? allOf(kind) : ticked(fields, kind);
    Correction correction = fix.correction();
    if (correction == null || !fields.problems().isEmpty()) {
      ctx.status(422);
      show(ctx, new Sent(kind, fix.sent(), fix.fix(), ticked, all), null, fields.problems());
      return;
    }
    show(ctx, Sent.NOTHING, corrections.apply(ticked, correction), List.of());
  }

  private static Kind kind(Fields fields) {
    String code = fields.raw("group");
    for (Kind kind : Kind.values()) {
      if (kind.code().equals(code)) {
        return kind;
      }
    }
    fields.problem("group", "Group", "expected a group of the page, found " + Fields.quoted(code));
    throw PageProblem.badFields(fields.problems());
  }

  private Set<Long> allOf(Kind kind) {
    Set<Long> ids = new TreeSet<>();
    house
        .ledger()
        .read(AttentionViews::groups)
        .getOrDefault(kind, List.of())
        .forEach(stored -> ids.add(stored.id()));
    return ids;
  }

  private static Set<Long> ticked(Fields fields, Kind kind) {
    Set<Long> ids = new TreeSet<>();
    String field = kind.code() + "-shots";
    for (String text : fields.all("shot")) {
      try {
        ids.add(Long.valueOf(text));
      } catch (NumberFormatException e) {
        fields.problem(
            field, "Shots", "expected the number of a shot, found " + Fields.quoted(text));
      }
    }
    if (ids.isEmpty()) {
      fields.problem(field, "Shots", "expected one shot or more to be ticked, found none");
    }
    return ids;
  }

  private void undo(Context ctx) {
    String shot = new Fields(ctx::formParams).raw("shot");
    undone(corrections, House.id(ctx, "id"));
    boolean fromShot = shot.matches("\\d{1,18}");
    ctx.redirect((fromShot ? "/shots/" + shot : "/attention") + "?undone=1", HttpStatus.SEE_OTHER);
  }

  private static void undone(Corrections corrections, long id) {
    if (corrections.undo(id).isEmpty()) {
      throw new PageProblem(
          409,
          "Not the newest correction",
          "A correction was made after this one, or it is undone already; nothing was changed.",
          "Undo the corrections from the newest on: the tray names the newest.",
          List.of());
    }
  }

  private void show(
      Context ctx, Sent sent, @Nullable Corrected corrected, List<FieldProblem> problems) {
    AttentionPage page =
        house.ledger().read(session -> page(ctx, session, sent, corrected, problems));
    if (Pages.wantsPart(ctx)) {
      house.pages().part(ctx, "traypart", page);
    } else {
      house.show(ctx, "attention", "Needs attention", Frame.Room.ATTENTION, page);
    }
  }

  private AttentionPage page(
      Context ctx,
      LedgerSession session,
      Sent sent,
      @Nullable Corrected corrected,
      List<FieldProblem> problems) {
    List<Spot> spots = session.spots().all();
    List<AttentionPage.Group> groups = new ArrayList<>();
    AttentionViews.groups(session)
        .forEach(
            (kind, shots) ->
                groups.add(group(kind, shots, kind == sent.kind() ? sent : Sent.NOTHING)));
    List<StoredCorrection> newest = session.corrections().newest(1);
    return new AttentionPage(
        (int) session.shots().counts().needingAttention(),
        groups,
        corrected == null ? null : FixedView.of(corrected, session),
        LastFix.of(newest, house.zone(spots)),
        ctx.queryParam("undone") != null,
        problems,
        spots.stream().map(AttentionViews::place).toList());
  }

  private static AttentionPage.Group group(Kind kind, List<StoredShot> shots, Sent sent) {
    List<StoredShot> shown = shots.subList(0, Math.min(shots.size(), AttentionViews.MOST_SHOWN));
    int more = shots.size() - shown.size();
    String first =
        switch (kind) {
          case BOTH -> "track";
          case TIME -> "zone";
          case CHOICE -> "choice";
          case PLACE -> "point";
          case WAY -> "bearing";
        };
    return new AttentionPage.Group(
        kind,
        AttentionViews.batches(kind, shown, sent.ticked()),
        shots.size(),
        more == 0 ? "" : Words.count(more, "more shot is", "more shots are") + " not shown here.",
        sent.all(),
        new FixForm(
            kind.code(),
            sent.fields(),
            sent.fix().isEmpty() ? first : sent.fix(),
            AttentionViews.offsets(shots),
            AttentionViews.readings(shots)));
  }
}

package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.Bookable;
import org.lightledger.session.ClientQuestion;
import org.lightledger.session.LeadDays;
import org.lightledger.session.MessageKind;
import org.lightledger.session.PackItem;
import org.lightledger.session.Terms;
import org.lightledger.store.LedgerSession;

/** What the studio sets for all sessions: days, packages, things to pack, questions. */
final class StudioRoutes {
  private static final int MOST_LINE = 200;

  private final House house;

  StudioRoutes(House house) {
    this.house = house;
  }

  void register(RoutesConfig routes) {
    routes.get("/studio", ctx -> show(ctx, Sent.NOTHING));
    routes.post("/studio/days", this::setDays);
    routes.post("/studio/packages", ctx -> savePackage(ctx, 0));
    routes.post("/studio/packages/{id}", ctx -> savePackage(ctx, House.id(ctx, "id")));
    routes.post("/studio/packages/{id}/remove", this::removePackage);
    routes.post("/studio/gear", this::addGear);
    routes.post("/studio/gear/{id}/remove", this::removeGear);
    routes.post("/studio/questions", ctx -> saveQuestion(ctx, 0));
    routes.post("/studio/questions/{id}", ctx -> saveQuestion(ctx, House.id(ctx, "id")));
    routes.post("/studio/questions/{id}/up", ctx -> move(ctx, -1));
    routes.post("/studio/questions/{id}/down", ctx -> move(ctx, 1));
    routes.post("/studio/questions/{id}/remove", this::removeQuestion);
  }

  private void refuse(Context ctx, Sent sent) {
    ctx.status(422);
    show(ctx, sent);
  }

  private void show(Context ctx, Sent sent) {
    StudioPage page =
        house
            .ledger()
            .read(
                session ->
                    new StudioPage(
                        leads(LeadDays.read(session.settings()::find), sent),
                        packages(session.sessions().packages(), sent),
                        session.packing().gear().stream()
                            .map(item -> new StudioPage.Gear(item.id(), item.words()))
                            .toList(),
                        questions(session.questionnaire().questions(), sent),
                        sent.text("gear", "gear", ""),
                        sent.problems(),
                        ctx.queryParam("saved") != null));
    house.show(ctx, "studio", "Studio", Frame.Room.SESSIONS, page);
  }

  private static List<StudioPage.Lead> leads(LeadDays leads, Sent sent) {
    List<StudioPage.Lead> rows = new ArrayList<>();
    for (MessageKind kind : MessageKind.values()) {
      rows.add(lead(kind.label(), label(kind), leads.days(kind), sent));
    }
    rows.add(lead("rehearsal", "Rehearse unseen spots", leads.rehearsal(), sent));
    return rows;
  }

  private static StudioPage.Lead lead(String field, String label, int days, Sent sent) {
    return new StudioPage.Lead(field, label, sent.text("days", field, String.valueOf(days)));
  }

  private static String label(MessageKind kind) {
    return switch (kind) {
      case QUESTIONS -> "Send the questions";
      case PLAN -> "Agree the plan";
      case REMINDER -> "Send the reminder";
    };
  }

  private static List<StudioPage.Package> packages(List<Bookable> packages, Sent sent) {
    List<StudioPage.Package> rows = new ArrayList<>();
    packages.forEach(bookable -> rows.add(row(bookable.id(), bookable.terms(), sent)));
    rows.add(row(0, null, sent));
    return rows;
  }

  private static StudioPage.Package row(long id, @Nullable Terms terms, Sent sent) {
    String form = "package-" + id;
    Terms start = terms == null ? Terms.USUAL : terms;
    return new StudioPage.Package(
        id,
        sent.text(form, "package-name-" + id, terms == null ? "" : start.name()),
        sent.text(form, "outfits-" + id, String.valueOf(start.outfitLimit())),
        sent.text(form, "least-" + id, String.valueOf(start.leastStops())),
        sent.text(form, "most-" + id, String.valueOf(start.mostStops())),
        sent.text(form, "length-" + id, String.valueOf(start.lengthMinutes())));
  }

  private static List<StudioPage.Question> questions(List<ClientQuestion> questions, Sent sent) {
    List<StudioPage.Question> rows = new ArrayList<>();
    for (int i = 0; i < questions.size(); i++) {
      ClientQuestion question = questions.get(i);
      rows.add(
          row(
              question.id(),
              question.words(),
              question.kind() == ClientQuestion.Kind.PLACES,
              i == 0,
              i == questions.size() - 1,
              sent));
    }
    rows.add(row(0, "", false, true, true, sent));
    return rows;
  }

  private static StudioPage.Question row(
      long id, String words, boolean places, boolean first, boolean last, Sent sent) {
    String form = "question-" + id;
    return new StudioPage.Question(
        id,
        sent.text(form, "question-" + id, words),
        sent.ticked(form, "places-" + id, "yes", places),
        first,
        last);
  }

  private void change(Context ctx, Consumer<LedgerSession> change, String part) {
    house.ledger().change(change);
    ctx.redirect("/studio?saved=1#" + part, HttpStatus.SEE_OTHER);
  }

  private void setDays(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    Map<MessageKind, Integer> before = new EnumMap<>(MessageKind.class);
    for (MessageKind kind : MessageKind.values()) {
      before.put(
          kind, fields.needed(kind.label(), label(kind), 0, LeadDays.LONGEST, " days before"));
    }
    int rehearsal = fields.needed("rehearsal", "Rehearse", 0, LeadDays.LONGEST, " days before");
    if (!fields.problems().isEmpty()) {
      refuse(ctx, new Sent("days", fields));
      return;
    }
    LeadDays leads = new LeadDays(before, rehearsal);
    change(
        ctx, session -> leads.settings().forEach((n, v) -> session.settings().set(n, v)), "days");
  }

  private void savePackage(Context ctx, long id) {
    Fields fields = new Fields(ctx::formParams);
    String name = fields.line("package-name-" + id, "Name", MOST_LINE);
    int outfits = fields.needed("outfits-" + id, "Outfits", 1, 12, " outfits");
    int most = fields.needed("most-" + id, "Most stops", 1, 8, " stops");
    int least = fields.needed("least-" + id, "Fewest stops", 1, 8, " stops");
    int length = fields.needed("length-" + id, "Length", 20, 720, " minutes");
    if (fields.problems().isEmpty() && least > most) {
      fields.problem(
          "least-" + id,
          "Fewest stops",
          "expected no more than the most stops, " + most + ", found " + least);
    }
    boolean taken =
        house.ledger().read(session -> session.sessions().packages()).stream()
            .anyMatch(other -> other.id() != id && other.terms().name().equals(name));
    if (taken) {
      fields.problem(
          "package-name-" + id,
          "Name",
          "expected a name of its own, found that of another package");
    }
    if (!fields.problems().isEmpty()) {
      refuse(ctx, new Sent("package-" + id, fields));
      return;
    }
    Terms terms = new Terms(name, outfits, least, most, length);
    change(
        ctx,
        session -> {
          if (id == 0) {
            session.sessions().addPackage(terms);
          } else {
            session.sessions().updatePackage(new Bookable(id, terms));
          }
        },
        "packages");
  }

  private void removePackage(Context ctx) {
    change(ctx, session -> session.sessions().removePackage(House.id(ctx, "id")), "packages");
  }

  private void addGear(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String words = fields.line("gear", "Thing to pack", MOST_LINE);
    boolean present =
        house.ledger().read(session -> session.packing().gear()).stream()
            .map(PackItem::words)
            .anyMatch(words::equals);
    if (present) {
      fields.problem(
          "gear", "Thing to pack", "expected something new, found a thing that is on the list");
    }
    if (!fields.problems().isEmpty()) {
      refuse(ctx, new Sent("gear", fields));
      return;
    }
    change(ctx, session -> session.packing().addGear(words), "gear");
  }

  private void removeGear(Context ctx) {
    change(ctx, session -> session.packing().removeGear(House.id(ctx, "id")), "gear");
  }

  private void saveQuestion(Context ctx, long id) {
    Fields fields = new Fields(ctx::formParams);
    String words = fields.line("question-" + id, "Question", MOST_LINE);
    if (!fields.problems().isEmpty()) {
      refuse(ctx, new Sent("question-" + id, fields));
      return;
    }
    ClientQuestion question =
        new ClientQuestion(
            id,
            words,
            fields.ticked("places-" + id) ? ClientQuestion.Kind.PLACES : ClientQuestion.Kind.WORDS);
    change(
        ctx,
        session -> {
          if (id == 0) {
            session.questionnaire().add(question);
          } else {
            session.questionnaire().update(question);
          }
        },
        "questions");
  }

  private void move(Context ctx, int by) {
    long id = House.id(ctx, "id");
    change(
        ctx,
        session -> {
          List<Long> order = new ArrayList<>();
          session.questionnaire().questions().forEach(question -> order.add(question.id()));
          int from = order.indexOf(id);
          if (from < 0) {
            throw PageProblem.notFound("That question is no longer there.");
          }
          Collections.swap(order, from, Math.min(Math.max(from + by, 0), order.size() - 1));
          session.questionnaire().reorder(order);
        },
        "questions");
  }

  private void removeQuestion(Context ctx) {
    change(ctx, session -> session.questionnaire().remove(House.id(ctx, "id")), "questions");
  }
}

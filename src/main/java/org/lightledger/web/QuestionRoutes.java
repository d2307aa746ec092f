package org.lightledger.web;

import static java.nio.charset.StandardCharsets.UTF_8;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.HttpStatus;
import java.net.URLDecoder;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Questions that the owner keeps. */
final class QuestionRoutes {
  private static final int MOST_NAME = 120;
  private static final int MOST_QUERY = 20_000;

  private final House house;

  QuestionRoutes(House house) {
    this.house = house;
  }

  void register(RoutesConfig routes) {
    routes.post("/questions", this::keep);
    routes.post("/questions/{id}/remove", this::remove);
  }

  private void keep(Context ctx) {
    Fields fields = new Fields(ctx::formParams);
    String name = fields.required("keep-name", "Name of the question", MOST_NAME);
    String query = fields.required("query", "Question", MOST_QUERY);
    AskForm.Read read = AskForm.read(parse(query), house.today(List.of()));
    read.problems()
        .forEach(problem -> fields.problem(problem.field(), problem.label(), problem.message()));
    fields.check();
    String asked = read.form().href().substring("/?".length());
    house.ledger().change(session -> session.questions().keep(name, asked));
    ctx.redirect("/?" + asked + "&kept=1#kept-questions", HttpStatus.SEE_OTHER);
  }

  private void remove(Context ctx) {
    long id = House.id(ctx, "id");
    house.ledger().change(session -> session.questions().remove(id));
    String query = new Fields(ctx::formParams).raw("query");
    boolean asks = AskForm.read(parse(query), house.today(List.of())).problems().isEmpty();
    ctx.redirect(
        (asks && !query.isEmpty() ? "/?" + query + "&kept=1" : "/?kept=1") + "#kept-questions",
        HttpStatus.SEE_OTHER);
  }

  /** The fields of an address's query. A part that can not be decoded is left as it is. */
  private static Map<String, List<String>> parse(String query) {
    Map<String, List<String>> fields = new LinkedHashMap<>();
    for (String part : query.split("&", -1)) {
      int equals = part.indexOf('=');
      if (equals > 0) {
        fields
            .computeIfAbsent(decoded(part.substring(0, equals)), any -> new ArrayList<>())
            .add(decoded(part.substring(equals + 1)));
      }
    }
    return fields;
  }

  private static String decoded(String text) {
    try {
      return URLDecoder.decode(text, UTF_8);
    } catch (IllegalArgumentException e) {
      return text;
    }
  }
}

package org.lightledger.web;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.javalin.http.Context;
import io.javalin.http.HttpResponseException;
import java.nio.charset.IllegalCharsetNameException;
import java.nio.charset.UnsupportedCharsetException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.eclipse.jetty.http.HttpException;
import org.eclipse.jetty.io.EofException;
import org.jspecify.annotations.Nullable;
import org.lightledger.store.LedgerException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Turns failures into pages, or into JSON for a caller that asks for it. Nothing private leaks. */
final class Problems {
  private static final Logger LOG = LoggerFactory.getLogger(Problems.class);
  private static final ObjectMapper JSON = new ObjectMapper();

  private final Pages pages;
  private final Assets assets;
  private final @Nullable SharePage clients;

  private Problems(Pages pages, Assets assets, @Nullable SharePage clients) {
    this.pages = pages;
    this.assets = assets;
    this.clients = clients;
  }

  /** Problems on pages of the owner. */
  static Problems forOwner(Pages pages, Assets assets) {
    return new Problems(pages, assets, null);
  }

  /** Problems on pages of clients, which show nothing of the owner's rooms. */
  static Problems forClients(Pages pages, Assets assets, SharePage clients) {
    return new Problems(pages, assets, clients);
  }

  void page(PageProblem problem, Context ctx) {
    show(ctx, ErrorPage.of(problem));
  }

  /** What the ledger refuses is said in its words; what went wrong inside it is not shown. */
  void ledger(LedgerException problem, Context ctx) {
    if (problem.reason() == LedgerException.Reason.NOT_FOUND) {
      show(ctx, ErrorPage.of(404));
    } else {
      unexpected(problem, ctx);
    }
  }

  void http(HttpResponseException problem, Context ctx) {
    show(ctx, ErrorPage.of(problem.getStatus()));
  }

  void notFound(Context ctx) {
    if (ctx.result() == null || ctx.result().isEmpty() || "Not Found".equals(ctx.result())) {
      show(ctx, ErrorPage.of(404));
    }
  }

  /** A request that broke off or can not be read is the sender's matter, and no failure of ours. */
  void unexpected(Exception problem, Context ctx) {
    for (Throwable cause = problem; cause != null; cause = cause.getCause()) {
      if (cause instanceof HttpException unreadable) {
        show(ctx, ErrorPage.of(unreadable.getCode()));
        return;
      }
      if (cause instanceof EofException
          || cause instanceof IllegalCharsetNameException
          || cause instanceof UnsupportedCharsetException) {
        show(ctx, ErrorPage.of(400));
        return;
      }
    }
    LOG.error("{} {} failed", ctx.method(), ctx.path(), problem);
    show(ctx, ErrorPage.of(500));
  }

  private void show(Context ctx, ErrorPage page) {
    ctx.status(page.status());
    if (wantsJson(ctx)) {
      ctx.contentType("application/problem+json").result(json(page));
    } else if (clients != null) {
      ctx.header("Content-Security-Policy", clients.policy());
      ctx.html(clients.over(page.title(), page.message(), null));
    } else if (Pages.wantsPart(ctx)) {
      pages.part(ctx, "problem", page);
    } else {
      Frame frame =
          new Frame(page.title(), Frame.Room.NONE, assets, 0, 0, null, Access.isLoggedIn(ctx));
      pages.show(ctx, "error", frame, page);
    }
  }

  private static boolean wantsJson(Context ctx) {
    String accept = ctx.header("Accept");
    return accept != null && accept.contains("json") && !accept.contains("text/html");
  }

  private static String json(ErrorPage page) {
    Map<String, Object> body = new LinkedHashMap<>();
    body.put("status", page.status());
    body.put("title", page.title());
    body.put("detail", page.message());
    body.put("toDo", page.toDo());
    List<Map<String, String>> fields =
        page.fields().stream()
            .map(field -> Map.of("field", field.field(), "message", field.message()))
            .toList();
    body.put("fields", fields);
    try {
      return JSON.writeValueAsString(body);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("texts and numbers can always be written", e);
    }
  }
}

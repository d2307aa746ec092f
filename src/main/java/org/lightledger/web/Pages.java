package org.lightledger.web;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import io.javalin.http.Context;
import java.util.Map;

/** Renders templates. */
final class Pages {
  private final TemplateEngine engine =
      TemplateEngine.createPrecompiled(null, ContentType.Html, null, "org.lightledger.web.view");

  /** A page of the owner: frame and content. */
  void show(Context ctx, String template, Frame frame, Object page) {
    ctx.html(render(template, Map.of("frame", frame, "page", page)));
  }

  /** A part of a page, for a partial update. */
  void part(Context ctx, String template, Object page) {
    ctx.html(render(template, Map.of("page", page)));
  }

  String render(String template, Map<String, Object> parameters) {
    StringOutput output = new StringOutput();
    engine.render(template + ".jte", parameters, output);
    return output.toString();
  }

  /** Whether the browser wants a part of the page in place of the whole. */
  static boolean wantsPart(Context ctx) {
    return "true".equals(ctx.header("HX-Request"))
        && !"true".equals(ctx.header("HX-History-Restore-Request"))
        && !"true".equals(ctx.header("HX-Boosted"));
  }
}

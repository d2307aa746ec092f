package org.lightledger.web;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Keeps the owner's routes to the owner's own browser. Names other than loopback are refused, so a
 * foreign name that was made to resolve here reads nothing; a change that another site's page asks
 * for is refused as well.
 */
final class Guard {
  private static final Pattern LOOPBACK =
      Pattern.compile("(?i)(localhost|127\\.0\\.0\\.1|\\[::1\\])(:\\d{1,5})?");
  private static final Set<HandlerType> READS =
      Set.of(HandlerType.GET, HandlerType.HEAD, HandlerType.OPTIONS);
  private static final String OWNER_POLICY =
      "default-src 'self'; img-src 'self' data:; style-src 'self'; script-src 'self';"
          + " object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

  private Guard() {}

  /** Headers of every answer; pages of the share tighten them. */
  static void headers(Context ctx) {
    ctx.header("Content-Security-Policy", OWNER_POLICY);
    ctx.header("X-Content-Type-Options", "nosniff");
    ctx.header("X-Frame-Options", "DENY");
    ctx.header("Referrer-Policy", "same-origin");
    ctx.header("Cross-Origin-Opener-Policy", "same-origin");
    ctx.header("Cross-Origin-Resource-Policy", "same-origin");
    ctx.header("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=()");
    ctx.header("Cache-Control", "no-store");
    ctx.header("Vary", "HX-Request");
  }

  /** Refuses what does not come from the owner's own browser. */
  static void owner(Context ctx) {
    String host = ctx.header("Host");
    if (host == null || !LOOPBACK.matcher(host).matches()) {
      throw refused(
          "These pages answer to localhost alone.", "Open them as http://localhost with the port.");
    }
    if (!READS.contains(ctx.method()) && comesFromElsewhere(ctx, host)) {
      throw refused(
          "Another site's page asked for this change.", "Send the form from this page itself.");
    }
  }

  private static boolean comesFromElsewhere(Context ctx, String host) {
    String site = ctx.header("Sec-Fetch-Site");
    if (site != null && !site.equals("same-origin") && !site.equals("none")) {
      return true;
    }
    return isForeign(ctx.header("Origin"), host);
  }

  private static boolean isForeign(@Nullable String origin, String host) {
    return origin != null && !origin.equalsIgnoreCase("http://" + host);
  }

  private static PageProblem refused(String message, String toDo) {
    return new PageProblem(403, "Refused", message, toDo, List.of());
  }
}

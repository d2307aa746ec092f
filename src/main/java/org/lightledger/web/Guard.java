package org.lightledger.web;

import io.javalin.http.Context;
import java.util.List;
import java.util.Set;
import java.util.function.IntSupplier;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Keeps the owner's routes to the owner. Names other than loopback and the declared one are
 * refused, so a foreign name that was made to resolve here reads nothing; a change that another
 * site's page asks for is refused as well; and where a password holds, so is whoever is not logged
 * in.
 */
final class Guard {
  private static final Pattern LOOPBACK =
      Pattern.compile("(?i)(localhost|127\\.0\\.0\\.1|\\[::1\\])(:\\d{1,5})?");
  private static final Set<String> READS = Set.of("GET", "HEAD", "OPTIONS");
  private static final Pattern BROKEN_ESCAPE = Pattern.compile("%(?![0-9A-Fa-f]{2})");
  private static final List<String> FORWARDING =
      List.of("Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Forwarded-Proto", "X-Real-IP");
  private static final String OWNER_POLICY =
      "default-src 'self'; img-src 'self' data:; style-src 'self'; script-src 'self';"
          + " object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

  /** A year, in seconds. Common practice, no source; RFC 6797 leaves the time to the site. */
  private static final String HSTS = "max-age=31536000";

  private final WebSettings settings;
  private final IntSupplier port;
  private final Access access;

  Guard(WebSettings settings, IntSupplier port, Access access) {
    this.settings = settings;
    this.port = port;
    this.access = access;
  }

  /** Headers of every answer; pages of the share tighten them. */
  private static void headers(Context ctx, @Nullable WebOrigin declared) {
    ctx.header("Content-Security-Policy", OWNER_POLICY);
    ctx.header("X-Content-Type-Options", "nosniff");
    ctx.header("X-Frame-Options", "DENY");
    ctx.header("Referrer-Policy", "same-origin");
    ctx.header("Cross-Origin-Opener-Policy", "same-origin");
    ctx.header("Cross-Origin-Resource-Policy", "same-origin");
    boolean mayAskWhere = ctx.path().equals(FieldRoutes.PAGE);
    ctx.header(
        "Permissions-Policy",
        "camera=(), microphone=(), payment=(), geolocation=" + (mayAskWhere ? "(self)" : "()"));
    ctx.header("Cache-Control", "no-store");
    ctx.header("Vary", "HX-Request");
    String host = ctx.header("Host");
    if (declared != null && declared.isSecure() && host != null && declared.isNamedBy(host)) {
      ctx.header("Strict-Transport-Security", HSTS);
    }
  }

  /** Before each request of the clients' listener. */
  static void clients(Context ctx, @Nullable WebOrigin declared) {
    headers(ctx, declared);
    address(ctx);
  }

  /** Before each request of the owner's listener. */
  void check(Context ctx) {
    WebOrigin declared = settings.ownerOrigin(port.getAsInt());
    headers(ctx, declared);
    address(ctx);
    if (!ShareRoutes.isClients(ctx.path())) {
      owner(ctx, declared);
    }
  }

  /**
   * Refuses an address that can not be read, and a header that would make another method of the
   * request's: the routing believes X-HTTP-Method-Override, and no page of ours sends it.
   */
  private static void address(Context ctx) {
    if (!ctx.method().name().equals(ctx.req().getMethod())) {
      throw new PageProblem(
          400,
          "The request says two methods",
          "A header asks for another method than the request itself.",
          "Send it without X-HTTP-Method-Override.",
          List.of());
    }
    if (BROKEN_ESCAPE.matcher(ctx.path()).find()) {
      throw new PageProblem(
          400,
          "The address is not well formed",
          "After a percent sign two digits from 0 to F are expected.",
          "Check the address.",
          List.of());
    }
  }

  private void owner(Context ctx, @Nullable WebOrigin declared) {
    String host = ctx.header("Host");
    boolean outside = host != null && declared != null && declared.isNamedBy(host);
    if (host == null || !(outside || LOOPBACK.matcher(host).matches())) {
      throw refused(
          declared == null
              ? "These pages answer to localhost alone."
              : "These pages answer to their own name and to localhost alone.",
          declared == null
              ? "Open them as http://localhost with the port."
              : "Open them at the address they were started with; a proxy has to pass the name on.");
    }
    boolean secure = outside && declared != null && declared.isSecure();
    boolean passwordHolds = access.admit(ctx, secure) != Access.Standing.FREE;
    if (!passwordHolds && FORWARDING.stream().anyMatch(name -> ctx.header(name) != null)) {
      throw refused(
          "A proxy passed this request on, and these pages have no password.",
          "Set one with the verb \"password\", and start with --owner-address.");
    }
    String origin = outside && declared != null ? declared.text() : "http://" + host;
    if (!READS.contains(ctx.req().getMethod()) && comesFromElsewhere(ctx, origin, passwordHolds)) {
      throw refused(
          "Another site's page asked for this change.", "Send the form from this page itself.");
    }
    access.require(ctx);
  }

  /**
   * A browser says where a request was made: in Sec-Fetch-Site, in Origin, or in both. What says
   * neither is no browser, and may change something only where no cookie gives it the right to.
   */
  private static boolean comesFromElsewhere(Context ctx, String own, boolean mustSay) {
    String site = ctx.header("Sec-Fetch-Site");
    String origin = ctx.header("Origin");
    if (site != null && !site.equals("same-origin") && !site.equals("none")) {
      return true;
    }
    if (origin != null) {
      return !origin.equalsIgnoreCase(own);
    }
    return mustSay && !"same-origin".equals(site);
  }

  private static PageProblem refused(String message, String toDo) {
    return new PageProblem(403, "Refused", message, toDo, List.of());
  }
}

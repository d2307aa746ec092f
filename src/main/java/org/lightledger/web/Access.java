package org.lightledger.web;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HttpStatus;
import io.javalin.http.SameSite;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.lightledger.access.AttemptLimit;
import org.lightledger.access.OwnerPassword;
import org.lightledger.access.PasswordHash;
import org.lightledger.access.PasswordRules;
import org.lightledger.access.Sessions;
import org.lightledger.store.Ledger;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The owner's login. A password that is set holds for everybody, also on this machine, because a
 * proxy on it connects from loopback too; without one the pages are served on loopback alone.
 */
final class Access {
  private static final Logger LOG = LoggerFactory.getLogger(Access.class);
  private static final String LOGIN = "/login";
  private static final String STANDING = "org.lightledger.standing";
  private static final String SECURE = "org.lightledger.secure";

  /** What the login page itself needs: style sheets and pictures, the same for everybody. */
  private static final Pattern OPEN = Pattern.compile("/login|/static/[^/]+/[^/]+");

  /** Where a login leads on to: a path of this site and nothing that a browser reads as another. */
  private static final Pattern OWN_PATH =
      Pattern.compile("/(?![/\\\\])[A-Za-z0-9/_.~!$'()*+,;=:@%?&-]{0,1000}");

  /** With this prefix a browser takes the cookie only from this very name, and over TLS. */
  private static final String SECURE_COOKIE = "__Host-lightledger";

  private static final String PLAIN_COOKIE = "lightledger";

  /** Each check takes 64 MiB, so one is made after the other. Own choice. */
  private static final Duration PATIENCE = Duration.ofSeconds(10);

  private final Ledger ledger;
  private final Pages pages;
  private final Assets assets;
  private final Clock clock;
  private final boolean exposed;
  private final ClientAddresses addresses;
  private final Sessions sessions = new Sessions();
  private final AttemptLimit attempts = new AttemptLimit();
  private final Semaphore hashing = new Semaphore(1, true);
  private final SecureRandom random = new SecureRandom();

  Access(
      WebSettings settings,
      Ledger ledger,
      Pages pages,
      Assets assets,
      Clock clock,
      ClientAddresses addresses) {
    this.ledger = ledger;
    this.pages = pages;
    this.assets = assets;
    this.clock = clock;
    this.exposed = settings.isExposed();
    this.addresses = addresses;
    if (exposed && stored().isEmpty()) {
      throw new IllegalArgumentException(
          "expected an owner's password before your pages can be reached by others (you gave"
              + " --host or --owner-address), found none in this ledger; set one with the verb"
              + " \"password\"");
    }
  }

  void register(RoutesConfig routes) {
    routes.get(LOGIN, this::show);
    routes.post(LOGIN, this::login);
    routes.post("/logout", this::logout);
  }

  /** What a request may do. */
  enum Standing {
    /** No password is set, and the pages are on loopback alone. */
    FREE,
    /** A password holds, and this browser has not sent it. */
    STRANGER,
    /** Logged in. */
    OWNER
  }

  /** Whether the request comes from a browser that is logged in. */
  static boolean isLoggedIn(Context ctx) {
    return ctx.attribute(STANDING) == Standing.OWNER;
  }

  /** Looks at the session of a request. */
  Standing admit(Context ctx, boolean secure) {
    Standing standing = standing(ctx.cookie(cookieName(secure)));
    ctx.attribute(STANDING, standing);
    ctx.attribute(SECURE, secure);
    return standing;
  }

  private Standing standing(@Nullable String token) {
    String password = stored().orElse(null);
    if (password == null) {
      return exposed ? Standing.STRANGER : Standing.FREE;
    }
    return token != null && sessions.use(token, password, clock.instant())
        ? Standing.OWNER
        : Standing.STRANGER;
  }

  /** Sends whoever has to log in first to the login page. */
  void require(Context ctx) {
    if (ctx.attribute(STANDING) != Standing.STRANGER || OPEN.matcher(ctx.path()).matches()) {
      return;
    }
    if (ctx.req().getMethod().equals("GET") && !Pages.wantsPart(ctx)) {
      String wanted = URLEncoder.encode(wanted(ctx), StandardCharsets.UTF_8);
      ctx.redirect(LOGIN + "?to=" + wanted, HttpStatus.SEE_OTHER);
      ctx.skipRemainingHandlers();
      return;
    }
    if (Pages.wantsPart(ctx)) {
      ctx.header("HX-Redirect", LOGIN);
    }
    throw new PageProblem(
        401,
        "Log in first",
        "Nothing was changed: this browser is not logged in, or no longer.",
        "Log in at /login and send it again.",
        List.of());
  }

  private static String wanted(Context ctx) {
    String query = ctx.queryString();
    return query == null ? ctx.path() : ctx.path() + "?" + query;
  }

  private void show(Context ctx) {
    String to = ownPath(ctx.queryParam("to"));
    if (ctx.attribute(STANDING) != Standing.STRANGER) {
      ctx.redirect(to, HttpStatus.SEE_OTHER);
      return;
    }
    page(ctx, to, null);
  }

  private void login(Context ctx) {
    String to = ownPath(ctx.formParam("to"));
    String password = ctx.formParam("password");
    String address = addresses.of(ctx);
    Instant now = clock.instant();
    Duration wait = attempts.begin(address, now);
    if (!wait.isZero()) {
      held(ctx, to, wait);
      return;
    }
    String kept = stored().orElse(null);
    PasswordHash hash = kept == null ? null : PasswordHash.parse(kept).orElse(null);
    if (hash == null || kept == null) {
      page(ctx.status(403), to, "No password is set. Set one with the verb \"password\".");
      return;
    }
    Boolean right = matches(hash, password);
    if (right == null) {
      attempts.withdrawn(address);
      held(ctx, to, PATIENCE);
    } else if (right && password != null) {
      attempts.succeeded(address);
      begin(ctx, renewed(hash, kept, password), now);
      ctx.redirect(to, HttpStatus.SEE_OTHER);
    } else {
      LOG.warn("a wrong password came from {}", address);
      page(ctx.status(403), to, "That is not the password.");
    }
  }

  /** Whether it is the password; null when too many are asking at the same time. */
  private @Nullable Boolean matches(PasswordHash hash, @Nullable String password) {
    if (password == null || password.length() > 2 * PasswordRules.MOST_CHARACTERS) {
      return false;
    }
    try {
      if (!hashing.tryAcquire(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
        return null;
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return null;
    }
    try {
      return hash.matches(password);
    } finally {
      hashing.release();
    }
  }

  /** What the ledger keeps from now on: a hash with the costs of today. */
  private String renewed(PasswordHash hash, String kept, String password) {
    if (!hash.isOutdated()) {
      return kept;
    }
    PasswordHash renewed = PasswordHash.of(password, random);
    ledger.change(session -> OwnerPassword.set(session, renewed));
    return renewed.text();
  }

  private void begin(Context ctx, String kept, Instant now) {
    boolean secure = Boolean.TRUE.equals(ctx.attribute(SECURE));
    String former = ctx.cookie(cookieName(secure));
    if (former != null) {
      sessions.end(former);
    }
    ctx.cookie(cookie(secure, sessions.begin(kept, now), -1));
  }

  private void logout(Context ctx) {
    boolean secure = Boolean.TRUE.equals(ctx.attribute(SECURE));
    String token = ctx.cookie(cookieName(secure));
    if (token != null) {
      sessions.end(token);
    }
    ctx.cookie(cookie(secure, "", 0));
    ctx.redirect(LOGIN, HttpStatus.SEE_OTHER);
  }

  private void held(Context ctx, String to, Duration wait) {
    long seconds = Limits.retryAfter(ctx, wait);
    page(
        ctx.status(429),
        to,
        "Too many tries. Wait "
            + (seconds < 120
                ? Words.count((int) seconds, "second", "seconds")
                : Words.count((int) (seconds + 59) / 60, "minute", "minutes"))
            + ", then try again.");
  }

  private void page(Context ctx, String to, @Nullable String problem) {
    pages.part(ctx, "login", new LoginPage(assets, to, problem));
  }

  private static Cookie cookie(boolean secure, String value, int maxAge) {
    return new Cookie(cookieName(secure), value, "/", maxAge, secure, true, null, SameSite.STRICT);
  }

  private static String cookieName(boolean secure) {
    return secure ? SECURE_COOKIE : PLAIN_COOKIE;
  }

  private static String ownPath(@Nullable String sent) {
    return sent != null && OWN_PATH.matcher(sent).matches() ? sent : "/";
  }

  private Optional<String> stored() {
    return ledger.read(OwnerPassword::of);
  }
}

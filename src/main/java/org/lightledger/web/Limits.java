package org.lightledger.web;

import io.javalin.http.Context;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import org.lightledger.access.RateLimit;

/** Keeps one address from guessing links and from sending without end. */
final class Limits {
  /** Wrong links at once: more than anybody mistypes. Own choice. */
  static final int WRONG_LINKS = 30;

  /** Then one in so long. Own choice. */
  private static final Duration LINK_SPAN = Duration.ofSeconds(2);

  /**
   * Uploads at once; the import page sends six pictures or 24 MB with each, and a fast network and
   * an idle machine get through a few in a second. Own choice.
   */
  static final int UPLOADS = 600;

  private static final Duration UPLOAD_SPAN = Duration.ofMillis(200);

  private final RateLimit links = new RateLimit(WRONG_LINKS, LINK_SPAN);
  private final RateLimit uploads = new RateLimit(UPLOADS, UPLOAD_SPAN);
  private final ClientAddresses addresses;
  private final Clock clock;

  Limits(ClientAddresses addresses, Clock clock) {
    this.addresses = addresses;
    this.clock = clock;
  }

  /** Refuses to look at a link from where too many wrong ones came. */
  void beforeLink(Context ctx) {
    refuse(ctx, links.waiting(addresses.of(ctx), clock.instant()), "wrong links");
  }

  /** Counts a wrong link. */
  void wrongLink(Context ctx) {
    links.take(addresses.of(ctx), clock.instant());
  }

  /** Counts an upload, and refuses it when there were too many. */
  void upload(Context ctx) {
    if (ctx.isMultipart()) {
      refuse(ctx, uploads.take(addresses.of(ctx), clock.instant()), "uploads");
    }
  }

  private static void refuse(Context ctx, Duration wait, String what) {
    if (!wait.isZero()) {
      long seconds = retryAfter(ctx, wait);
      throw new PageProblem(
          429,
          "Too many at once",
          "Too many "
              + what
              + " came from your network; wait "
              + Words.count((int) seconds, "second", "seconds")
              + ".",
          "Then try again.",
          List.of());
    }
  }

  /** Says in a header how long to wait, in whole seconds (RFC 9110, section 10.2.3). */
  static long retryAfter(Context ctx, Duration wait) {
    long seconds = Math.max(1, (wait.toMillis() + 999) / 1000);
    ctx.header("Retry-After", Long.toString(seconds));
    return seconds;
  }
}

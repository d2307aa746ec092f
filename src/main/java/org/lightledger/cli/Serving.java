package org.lightledger.cli;

import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import org.jspecify.annotations.Nullable;
import org.lightledger.store.Ledger;
import org.lightledger.web.WebServer;
import org.lightledger.web.WebSettings;

/** A running server, which goes on until the process is asked to end. */
final class Serving implements AutoCloseable {
  private final WebSettings settings;
  private final WebServer server;
  private final CountDownLatch stopped = new CountDownLatch(1);

  Serving(Services services, Ledger ledger, WebSettings settings) {
    this.settings = settings;
    this.server =
        new WebServer(
                settings,
                ledger,
                services.asker(),
                services.importer(ledger),
                services.corrections(ledger),
                services.sun(),
                services.clock())
            .start();
    Runtime.getRuntime().addShutdownHook(new Thread(stopped::countDown));
  }

  private String address() {
    if (settings.ownerAddress() != null) {
      return settings.ownerAddress();
    }
    return "http://" + settings.host() + ":" + server.port() + "/";
  }

  Map<String, @Nullable Object> json() {
    return Json.fields()
        .put("address", address())
        .put("sharePort", settings.shareHost() == null ? null : server.sharePort())
        .map();
  }

  String text() {
    String own = String.format(Locale.ROOT, "Open %s (stop with Ctrl-C)%n", address());
    return settings.shareHost() == null
        ? own
        : own
            + String.format(
                Locale.ROOT,
                "Clients' pages alone: http://%s:%d/%n",
                settings.shareHost(),
                server.sharePort());
  }

  void untilStopped() throws InterruptedException {
    stopped.await();
  }

  @Override
  public void close() {
    server.close();
  }
}

package org.lightledger.bench;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Stream;
import org.lightledger.ask.Asker;
import org.lightledger.correction.Corrections;
import org.lightledger.demo.DemoLedger;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;
import org.lightledger.share.ShareTokens;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.web.WebServer;
import org.lightledger.web.WebSettings;

/**
 * How long clients wait for a share while an import runs: each of 200 clients opens the page of a
 * link and then its pictures, again and again, over loopback. Clients and server are one process
 * and share its processors. Its arguments are the number of clients (200), the number of files to
 * import (10,000) and how long a client looks at the page before opening it again, in milliseconds
 * (1000; with 0 it measures how much the server can take).
 */
public final class ShareLoadBench {
  private static final int SPOTS = 4;

  private ShareLoadBench() {}

  /** What the clients met. */
  private record Met(List<Double> pagesMs, List<Double> picturesMs, List<String> errors) {
    Met() {
      this(
          Collections.synchronizedList(new ArrayList<>()),
          Collections.synchronizedList(new ArrayList<>()),
          Collections.synchronizedList(new ArrayList<>()));
    }
  }

  /** Measures and prints. */
  public static void main(String[] args) throws IOException, InterruptedException {
    int clients = args.length > 0 ? Integer.parseInt(args[0]) : 200;
    int files = args.length > 1 ? Integer.parseInt(args[1]) : 10_000;
    int pauseMs = args.length > 2 ? Integer.parseInt(args[2]) : 1000;
    Path work = Files.createTempDirectory("share-load");
    Clock clock = Clock.systemUTC();
    PlaceZones zones = new PlaceZones();
    SpaEphemeris sun = new SpaEphemeris();
    try (Ledger ledger = Ledger.open(work.resolve("ledger"), clock)) {
      Importer importer = new Importer(ledger, zones, sun);
      DemoLedger.fill(work.resolve("ledger"), ledger, importer, clock, ImportProgress.NONE);
      String token = share(ledger, clock.instant());
      List<Path> folders =
          List.of(copies(work.resolve("first"), files), copies(work.resolve("second"), files));
      WebSettings settings = new WebSettings("127.0.0.1", 0, "127.0.0.1", 0, null);
      try (WebServer server =
          new WebServer(
                  settings,
                  ledger,
                  new Asker(sun),
                  importer,
                  new Corrections(ledger, zones, sun, clock),
                  sun,
                  clock)
              .start()) {
        String link = "http://127.0.0.1:" + server.sharePort() + "/s/" + token;
        say("clients alone", read(link, clients, pauseMs, () -> Thread.sleep(10_000)));
        importAndSay("import alone", importer, folders.get(0), files);
        say(
            "clients during an import",
            read(
                link,
                clients,
                pauseMs,
                () -> importAndSay("import beside clients", importer, folders.get(1), files)));
      }
    } finally {
      try (Stream<Path> walk = Files.walk(work)) {
        for (Path path : walk.sorted(Collections.reverseOrder()).toList()) {
          Files.delete(path);
        }
      }
    }
  }

  private static String share(Ledger ledger, Instant now) {
    String token = new ShareTokens().next();
    ledger.change(
        session -> {
          long list = session.shortlists().create("Autumn", "For the load test");
          session.spots().all().stream()
              .limit(SPOTS)
              .forEach(
                  spot -> {
                    Long cover =
                        session.shots().ofSpot(spot.id()).stream()
                            .findFirst()
                            .map(shot -> shot.id())
                            .orElse(null);
                    session
                        .shortlists()
                        .add(list, new Shortlist.Entry(spot.id(), null, cover, "Wide grass"));
                  });
          session
              .shares()
              .create(
                  ShareSubject.shortlist(list),
                  ShareTerms.ofShortlist(false, null),
                  token,
                  new ShareTokens().keys(),
                  now);
        });
    return token;
  }

  /** Copies of the sample photos, each with a few bytes after its end that make it another file. */
  private static Path copies(Path folder, int count) throws IOException {
    List<Path> photos;
    try (Stream<Path> walk = Files.walk(Path.of("sample-photos"))) {
      photos = walk.filter(file -> file.toString().endsWith(".jpg")).sorted().toList();
    }
    for (int i = 0; i < count; i++) {
      Path inner = Files.createDirectories(folder.resolve(String.valueOf(i / 1000)));
      byte[] photo = Files.readAllBytes(photos.get(i % photos.size()));
      byte[] copy = Arrays.copyOf(photo, photo.length + 8);
      ByteBuffer.wrap(copy, photo.length, 8).putInt(folder.hashCode()).putInt(i);
      Files.write(inner.resolve("copy-" + i + ".jpg"), copy);
    }
    return folder;
  }

  private interface Meanwhile {
    void run() throws InterruptedException;
  }

  private static Met read(String link, int clients, int pauseMs, Meanwhile meanwhile)
      throws InterruptedException {
    Met met = new Met();
    AtomicBoolean over = new AtomicBoolean();
    CountDownLatch left = new CountDownLatch(clients);
    HttpClient http =
        HttpClient.newBuilder()
            .version(HttpClient.Version.HTTP_1_1)
            .executor(Executors.newFixedThreadPool(4, ShareLoadBench::daemon))
            .build();
    for (int i = 0; i < clients; i++) {
      int first = i;
      daemon(
              () -> {
                try {
                  Thread.sleep((long) first * pauseMs / clients);
                  while (!over.get()) {
                    visit(http, link, met);
                    Thread.sleep(pauseMs);
                  }
                } catch (InterruptedException e) {
                  Thread.currentThread().interrupt();
                } finally {
                  left.countDown();
                }
              })
          .start();
    }
    meanwhile.run();
    over.set(true);
    left.await();
    return met;
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work);
    thread.setDaemon(true);
    return thread;
  }

  private static void visit(HttpClient http, String link, Met met) throws InterruptedException {
    ask(http, link, met.pagesMs(), met.errors());
    for (int picture = 1; picture <= SPOTS; picture++) {
      ask(http, link + "/picture/" + picture, met.picturesMs(), met.errors());
    }
  }

  private static void ask(HttpClient http, String address, List<Double> tookMs, List<String> errors)
      throws InterruptedException {
    long start = System.nanoTime();
    try {
      HttpResponse<byte[]> answer =
          http.send(
              HttpRequest.newBuilder(URI.create(address)).build(),
              HttpResponse.BodyHandlers.ofByteArray());
      if (answer.statusCode() == 200) {
        tookMs.add((System.nanoTime() - start) / 1e6);
      } else {
        errors.add("status " + answer.statusCode());
      }
    } catch (IOException e) {
      errors.add(String.valueOf(e));
    }
  }

  private static void importAndSay(String what, Importer importer, Path folder, int files) {
    long start = System.nanoTime();
    ImportReport report =
        importer.run(List.of(folder), ImportOptions.standard(), ImportProgress.NONE);
    double tookS = (System.nanoTime() - start) / 1e9;
    System.out.printf(
        Locale.ROOT,
        "%s: %d files read, %d added, %.1f s, %.0f a second%n",
        what,
        report.read(),
        report.count(FileReport.Status.ADDED),
        tookS,
        files / tookS);
  }

  private static void say(String what, Met met) {
    System.out.printf(Locale.ROOT, "%s: %d errors%n", what, met.errors().size());
    met.errors().stream().distinct().limit(5).forEach(System.out::println);
    line("pages", met.pagesMs());
    line("pictures", met.picturesMs());
  }

  private static void line(String what, List<Double> tookMs) {
    double[] sorted = tookMs.stream().mapToDouble(ms -> ms).sorted().toArray();
    if (sorted.length > 0) {
      System.out.printf(
          Locale.ROOT,
          "  %s: %d, median %.1f ms, 99th percentile %.1f ms, longest %.0f ms%n",
          what,
          sorted.length,
          sorted[sorted.length / 2],
          sorted[(int) Math.min(sorted.length - 1L, Math.round(sorted.length * 0.99))],
          sorted[sorted.length - 1]);
    }
  }
}

package org.lightledger.web;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.lightledger.access.OwnerPassword;
import org.lightledger.access.PasswordHash;
import org.lightledger.ask.Asker;
import org.lightledger.correction.Corrections;
import org.lightledger.demo.DemoLedger;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;
import org.lightledger.sun.SunEphemeris;
import org.lightledger.testing.TestClock;

/** A running server over a real ledger, and a small client for it. */
final class TestSite implements AutoCloseable {
  /** Three places near each other, some hundred metres apart. */
  static final double[][] PLACES = {{41.9500, -6.6100}, {41.9540, -6.6100}, {41.9500, -6.6040}};

  private static final SunEphemeris SUN = new SpaEphemeris();
  private static final ZoneLookup ZONES = new PlaceZones();

  private final Path folder;
  private final TestClock clock = new TestClock(Instant.parse("2026-11-25T10:00:00Z"));
  private final Ledger ledger;
  private final Importer importer;
  private final WebServer server;
  private final HttpClient http = HttpClient.newHttpClient();

  TestSite(Path folder) {
    this(folder, new WebSettings("127.0.0.1", 0, "127.0.0.1", 0, null), null);
  }

  /** A site with a password, or without when that is null. */
  TestSite(Path folder, WebSettings settings, String password) {
    this.folder = folder;
    this.ledger = Ledger.open(folder.resolve("ledger"), clock);
    if (password != null) {
      setPassword(password);
    }
    this.importer = new Importer(ledger, ZONES, SUN);
    this.server =
        new WebServer(
                settings,
                ledger,
                new Asker(SUN),
                importer,
                new Corrections(ledger, ZONES, SUN, clock),
                SUN,
                clock)
            .start();
  }

  /** Sets the password as the verb does. */
  void setPassword(String password) {
    PasswordHash hash = PasswordHash.of(password, new SecureRandom());
    ledger.change(session -> OwnerPassword.set(session, hash));
  }

  WebServer server() {
    return server;
  }

  /** Writes the photos of three spots: two looking west in the evening, one that does not say. */
  Path writePhotos() {
    Path photos = folder.resolve("photos");
    write(photos, "1-mill-a.jpg", photo("2026:11:20 17:00:00", 0, 0, 232.0));
    write(photos, "1-mill-b.jpg", photo("2026:11:20 17:20:00", 0, 0.00002, 236.0));
    write(photos, "2-wall.jpg", photo("2026:10:02 19:00:00", 1, 0, 262.0));
    write(
        photos,
        "3-arcade.jpg",
        TestPhotos.shot("2026:10:02 12:00:00", "+02:00", PLACES[2][0], PLACES[2][1], null, 1));
    return photos;
  }

  private static byte[] photo(String local, int place, double beside, double facingDeg) {
    String offset = local.startsWith("2026:11") ? "+01:00" : "+02:00";
    return TestPhotos.shot(
        local, offset, PLACES[place][0] + beside, PLACES[place][1], facingDeg, 1);
  }

  static void write(Path folder, String name, byte[] content) {
    try {
      Files.createDirectories(folder);
      Files.write(folder.resolve(name), content);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A folder that holds one file. */
  static Path folderOf(Path folder, String name, byte[] content) {
    write(folder, name, content);
    return folder;
  }

  TestSite withPhotos() {
    importer.run(List.of(writePhotos()), ImportOptions.standard(), ImportProgress.NONE);
    return this;
  }

  /** The ledger of the demo, with its elevation and map. */
  TestSite withDemo() {
    DemoLedger.fill(ledgerFolder(), ledger, importer, clock, ImportProgress.NONE);
    return this;
  }

  /** Imports what lies in a folder. */
  TestSite importFrom(Path files) {
    importer.run(List.of(files), ImportOptions.standard(), ImportProgress.NONE);
    return this;
  }

  /** The number of the shot that a file of a folder holds. */
  long shotOf(Path file) {
    return ledger.read(
        session ->
            Objects.requireNonNull(
                session.files().find(file.toAbsolutePath()).orElseThrow().shotId()));
  }

  Ledger ledger() {
    return ledger;
  }

  Path ledgerFolder() {
    return folder.resolve("ledger");
  }

  TestClock clock() {
    return clock;
  }

  int port() {
    return server.port();
  }

  int sharePort() {
    return server.sharePort();
  }

  String address() {
    return "http://localhost:" + port();
  }

  /** What the server answered; redirects are not followed. */
  record Answer(int status, byte[] body, Map<String, List<String>> headers) {
    String text() {
      return new String(body, UTF_8);
    }

    String header(String name) {
      List<String> values = headers.get(name.toLowerCase(Locale.ROOT));
      return values == null ? "" : values.get(0);
    }
  }

  Answer get(String path, String... headers) {
    return getAt(address() + path, headers);
  }

  Answer getAt(String address, String... headers) {
    HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(address)).GET();
    return send(headers.length == 0 ? request : request.headers(headers));
  }

  /** Posts a form of names and values in turn. */
  Answer post(String path, String... form) {
    return post(path, List.of(), form);
  }

  Answer post(String path, List<String> headers, String... form) {
    StringBuilder body = new StringBuilder();
    for (int i = 0; i < form.length; i += 2) {
      body.append(i == 0 ? "" : "&");
      body.append(form[i]).append('=').append(URLEncoder.encode(form[i + 1], UTF_8));
    }
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(address() + path))
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(body.toString()));
    return send(headers.isEmpty() ? request : request.headers(headers.toArray(String[]::new)));
  }

  /** Uploads files as the import page does. */
  Answer upload(Map<String, byte[]> files) {
    String boundary = "----lightledger-test";
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    new LinkedHashMap<>(files)
        .forEach(
            (name, content) -> {
              body.writeBytes(
                  ("--"
                          + boundary
                          + "\r\nContent-Disposition: form-data; name=\"files\"; filename=\""
                          + name
                          + "\"\r\nContent-Type: image/jpeg\r\n\r\n")
                      .getBytes(UTF_8));
              body.writeBytes(content);
              body.writeBytes("\r\n".getBytes(UTF_8));
            });
    body.writeBytes(("--" + boundary + "--\r\n").getBytes(UTF_8));
    return send(
        HttpRequest.newBuilder(URI.create(address() + "/import/files"))
            .header("Content-Type", "multipart/form-data; boundary=" + boundary)
            .header("HX-Request", "true")
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  /** Posts a form that carries one file, as a browser does. */
  Answer postFile(String path, String field, byte[] content, String... form) {
    String boundary = "----lightledger-form";
    StringBuilder head = new StringBuilder();
    for (int i = 0; i < form.length; i += 2) {
      head.append(
          "--%s\r\nContent-Disposition: form-data; name=\"%s\"\r\n\r\n%s\r\n"
              .formatted(boundary, form[i], form[i + 1]));
    }
    head.append(
        "--%s\r\nContent-Disposition: form-data; name=\"%s\"; filename=\"walk.gpx\"\r\n\r\n"
            .formatted(boundary, field));
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    body.writeBytes(head.toString().getBytes(UTF_8));
    body.writeBytes(content);
    body.writeBytes(("\r\n--" + boundary + "--\r\n").getBytes(UTF_8));
    return send(
        HttpRequest.newBuilder(URI.create(address() + path))
            .header("Content-Type", "multipart/form-data; boundary=" + boundary)
            .POST(HttpRequest.BodyPublishers.ofByteArray(body.toByteArray())));
  }

  private Answer send(HttpRequest.Builder request) {
    try {
      HttpResponse<byte[]> response =
          http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
      return new Answer(response.statusCode(), response.body(), response.headers().map());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /**
   * Sends lines as they stand, for headers that a proper client refuses; returns the first line.
   */
  String raw(String... lines) {
    try (Socket socket = new Socket("127.0.0.1", port())) {
      socket.setSoTimeout(10_000);
      socket.getOutputStream().write((String.join("\r\n", lines) + "\r\n\r\n").getBytes(UTF_8));
      socket.getOutputStream().flush();
      String answer = new String(socket.getInputStream().readNBytes(64), UTF_8);
      return answer.substring(0, answer.indexOf('\r'));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The names of the files in a folder of the ledger, none when it does not exist. */
  List<String> filesIn(String name) {
    Path inner = ledgerFolder().resolve(name);
    List<String> names = new ArrayList<>();
    if (Files.isDirectory(inner)) {
      try (var files = Files.list(inner)) {
        files.forEach(file -> names.add(file.getFileName().toString()));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return names;
  }

  @Override
  public void close() {
    server.close();
    ledger.close();
  }
}

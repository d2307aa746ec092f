package org.lightledger.web;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.lightledger.ask.Sky;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Answer;
import org.lightledger.session.Client;
import org.lightledger.session.Contact;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.MessageKind;
import org.lightledger.session.SentMessage;
import org.lightledger.session.Session;
import org.lightledger.share.Share;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;
import org.lightledger.share.ShareTokens;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.spot.Spot;
import org.lightledger.store.SessionSamples;
import org.lightledger.store.SessionStore;

/**
 * A studio with two clients, whose every private field holds a word that is found nowhere else, and
 * what a stranger can ask of its shares.
 */
final class SharedWorld implements AutoCloseable {
  /** Words of private fields; none may leave the ledger. */
  static final List<String> PRIVATE =
      List.of(
          "Quorvexa",
          "Zilbonta",
          "600 777 123",
          "600777123",
          "gralmix@example.org",
          "gralmix",
          "Hoftreppe",
          "Wunkelsar",
          "Brimzotal",
          "Trelquast",
          "Xandrovik",
          "Plomberti",
          "Vestulkin",
          "Ygrappon",
          "Mordwenka",
          "Jastropel",
          "Kwindelmar",
          "Obrastek",
          "Tupfelin",
          "Nerbovald",
          "photos/1-mill",
          "1-mill-a.jpg",
          "ledger.gpkg");

  /** Where the second stop lies, as any page could write it; only the meeting spot may be told. */
  static final List<String> PLACES = List.of("41.954", "41.9540", "6.6040", "6.604", "41,954");

  static final Instant CALL = Instant.parse("2026-12-12T15:00:00Z");

  final TestSite site;
  final long sessionId;
  final long otherSessionId;
  final long listId;
  private final HttpClient http = HttpClient.newHttpClient();
  private final ShareTokens tokens = new ShareTokens();

  SharedWorld(Path folder) {
    site = new TestSite(folder);
    Path photos = site.writePhotos();
    TestSite.write(
        photos,
        "1-mill-a.jpg",
        marked(TestPhotos.shot("2026:11:20 17:00:00", "+01:00", 41.95, -6.61, 232.0, 1)));
    site.importFrom(photos);
    long[] made =
        site.ledger()
            .write(
                session -> {
                  long nilo =
                      session
                          .clients()
                          .add(
                              new Client(
                                  0,
                                  "Nilo Quorvexa",
                                  "Nilo",
                                  true,
                                  new Contact(null, "600 777 123"),
                                  new Client.Guardian(
                                      "Marta Zilbonta", new Contact("gralmix@example.org", null)),
                                  "Hoftreppe 4",
                                  "Wunkelsar"));
                  long other =
                      session
                          .clients()
                          .add(
                              new Client(
                                  0,
                                  "Berta Brimzotal",
                                  "Xandrovik",
                                  false,
                                  Contact.NONE,
                                  null,
                                  "",
                                  ""));
                  long id = book(session.sessions(), nilo);
                  long otherId = session.sessions().add(SessionSamples.session(other));
                  session
                      .questionnaire()
                      .answer(otherId, new Answer(2, "Which?", "Nerbovald", Set.of(), CALL, true));
                  session
                      .questionnaire()
                      .answer(
                          id,
                          new Answer(
                              3, "Which?", "Tupfelin, told by phone", Set.of(), CALL, false));
                  for (Spot spot : session.spots().all()) {
                    session
                        .spots()
                        .update(
                            new Spot(
                                spot.id(),
                                spot.id() == 1 ? "Mill race" : spot.name(),
                                "Trelquast",
                                spot.position(),
                                spot.zone(),
                                spot.open(),
                                spot.facings(),
                                "Obrastek",
                                spot.id() == 1 ? "wet steps" : ""));
                  }
                  session.plans().keep(id, plan());
                  session
                      .messages()
                      .sent(
                          id,
                          new SentMessage(
                              MessageKind.PLAN,
                              SentMessage.Way.COPIED,
                              "gralmix@example.org",
                              "Kwindelmar",
                              "Kwindelmar",
                              CALL));
                  session.packing().add(id, "Jastropel");
                  long list = session.shortlists().create("Winter portraits", "Dear you");
                  session.shortlists().add(list, new Shortlist.Entry(1, null, 1L, "Tall grass"));
                  session.shortlists().add(list, new Shortlist.Entry(2, null, null, ""));
                  session.shortlists().create("Brimzotal's list", "Nerbovald");
                  session.settings().set("mail.user", "Mordwenka");
                  return new long[] {id, otherId, list};
                });
    sessionId = made[0];
    otherSessionId = made[1];
    listId = made[2];
  }

  private static long book(SessionStore sessions, long client) {
    Session sample = SessionSamples.session(client);
    long id =
        sessions.add(
            new Session(
                0,
                "uid-Ygrappon",
                0,
                client,
                LocalDate.of(2026, 12, 12),
                sample.zone(),
                sample.anchor(),
                sample.terms(),
                Session.State.PLANNED,
                Session.Brief.EMPTY));
    sessions.describe(
        id,
        new Session.Brief(
            "Plomberti", "Plomberti", "Vestulkin", "Vestulkin", "Ygrappon", "Ygrappon"));
    return id;
  }

  private static KeptPlan plan() {
    return new KeptPlan(
        CALL.minusSeconds(86_400),
        Sky.CLEAR,
        false,
        CALL,
        CALL.plusSeconds(7200),
        new KeptPlan.Meeting("At the fountain", new GeoPoint(41.95, -6.61)),
        List.of(
            new KeptPlan.Stop(
                1,
                CALL,
                CALL.plusSeconds(300),
                CALL.plusSeconds(2300),
                CALL.plusSeconds(2400),
                1,
                List.of(),
                null,
                new Bearing(230),
                3L),
            new KeptPlan.Stop(
                2,
                CALL.plusSeconds(3000),
                CALL.plusSeconds(3300),
                CALL.plusSeconds(5900),
                CALL.plusSeconds(6000),
                2,
                List.of(new KeptPlan.Change(CALL.plusSeconds(4000), CALL.plusSeconds(4300), 3)),
                new KeptPlan.Drive(10, KeptPlan.Drive.Source.OWNER),
                null,
                null)));
  }

  /** A JPEG with words of its own in a comment. */
  static byte[] marked(byte[] jpeg) {
    byte[] words = "Xandrovik GPSLatitude 41.954".getBytes(UTF_8);
    return TestPhotos.concat(
        Arrays.copyOf(jpeg, 2),
        new byte[] {(byte) 0xff, (byte) 0xfe, 0, (byte) (words.length + 2)},
        words,
        Arrays.copyOfRange(jpeg, 2, jpeg.length));
  }

  Share share(ShareSubject subject, boolean asFile, boolean exact) {
    return site.ledger()
        .write(
            session -> {
              long id =
                  session
                      .shares()
                      .create(
                          subject,
                          new ShareTerms(
                              asFile,
                              null,
                              "",
                              exact,
                              subject.isSession(),
                              subject.isSession(),
                              null),
                          tokens.next(),
                          tokens.keys(),
                          site.clock().instant());
              return session.shares().find(id).orElseThrow();
            });
  }

  String link(Share share) {
    return "http://127.0.0.1:" + site.sharePort() + "/s/" + share.token();
  }

  /** What the clients' listener answered. */
  record Served(int status, byte[] body, String location) {
    String text() {
      return new String(body, UTF_8);
    }

    /** The bytes as they are, in lower case, for a search. */
    String raw() {
      return new String(body, ISO_8859_1).toLowerCase(Locale.ROOT);
    }
  }

  Served get(String address) {
    return send(HttpRequest.newBuilder(URI.create(address)).GET());
  }

  /** Posts a form to the clients' listener; headers and fields are names and values in turn. */
  Served post(String address, List<String> headers, String... form) {
    StringBuilder body = new StringBuilder();
    for (int i = 0; i < form.length; i += 2) {
      body.append(i == 0 ? "" : "&")
          .append(form[i])
          .append('=')
          .append(URLEncoder.encode(form[i + 1], UTF_8));
    }
    return send(
        with(HttpRequest.newBuilder(URI.create(address)), headers)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .POST(HttpRequest.BodyPublishers.ofString(body.toString())));
  }

  /** Sends files, as the clients' page does. */
  Served upload(String address, List<String> headers, byte[]... files) {
    ByteArrayOutputStream body = new ByteArrayOutputStream();
    for (byte[] file : files) {
      body.writeBytes(
          ("--edge\r\nContent-Disposition: form-data; name=\"pictures\"; filename=\"a.jpg\"\r\n"
                  + "Content-Type: image/jpeg\r\n\r\n")
              .getBytes(UTF_8));
      body.writeBytes(file);
      body.writeBytes("\r\n".getBytes(UTF_8));
    }
    body.writeBytes("--edge--\r\n".getBytes(UTF_8));
    List<String> all = new ArrayList<>(headers);
    all.addAll(List.of("Content-Type", "multipart/form-data; boundary=edge"));
    return postBytes(address, all, body.toByteArray());
  }

  /** Sends bytes as they are. */
  Served postBytes(String address, List<String> headers, byte[] body) {
    return send(
        with(HttpRequest.newBuilder(URI.create(address)), headers)
            .POST(HttpRequest.BodyPublishers.ofByteArray(body)));
  }

  private static HttpRequest.Builder with(HttpRequest.Builder request, List<String> headers) {
    return headers.isEmpty() ? request : request.headers(headers.toArray(String[]::new));
  }

  private Served send(HttpRequest.Builder request) {
    try {
      HttpResponse<byte[]> response =
          http.send(request.build(), HttpResponse.BodyHandlers.ofByteArray());
      return new Served(
          response.statusCode(),
          response.body(),
          response.headers().firstValue("Location").orElse(""));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    site.close();
  }
}

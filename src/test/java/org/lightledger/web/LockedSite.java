package org.lightledger.web;

import java.nio.file.Path;
import java.util.List;

/** A site that others can reach, behind a proxy with TLS, with some of everything in its ledger. */
final class LockedSite implements AutoCloseable {
  static final String PASSWORD = "wet boots and a brass tripod";
  static final String HOST = "light.example.org";
  static final String ORIGIN = "https://" + HOST;

  private final TestSite site;
  private final String cookie;

  LockedSite(Path folder) {
    WebSettings settings =
        new WebSettings("127.0.0.1", 0, "127.0.0.1", 0, null, ORIGIN, "127.0.0.1");
    site = new TestSite(folder, settings, PASSWORD).withPhotos();
    cookie = logIn(client(), PASSWORD);
    fill();
  }

  private void fill() {
    RawClient client = client();
    post(client, "/shortlists", "title=Autumn");
    post(
        client,
        "/shortlists/keep",
        "spot=1&list=1&from=2026-12-10T16:20:00%2B01:00&to=2026-12-10T17:40:00%2B01:00"
            + "&light=backlit&facing=234.0&cover=1");
    post(client, "/shortlists/1/shares", "days=60");
    post(client, "/questions", "keep-name=Evening&query=light%3Dbacklit");
    post(
        client,
        "/surroundings/obstructions",
        "name=Shed&kind=building&shape=outline&height=5&corners="
            + "41.9501,-6.6101%0A41.9501,-6.6100%0A41.9502,-6.6100");
  }

  TestSite site() {
    return site;
  }

  RawClient client() {
    return new RawClient(site.port());
  }

  /** The headers of the owner's own browser at the declared address. */
  List<String> owner() {
    return List.of(
        "Host: " + HOST, "Cookie: " + cookie, "Origin: " + ORIGIN, "Sec-Fetch-Site: same-origin");
  }

  String cookie() {
    return cookie;
  }

  RawClient.Answer get(RawClient client, String target) {
    return client.get(target, owner().toArray(String[]::new));
  }

  RawClient.Answer post(RawClient client, String target, String form) {
    return client.post(target, form, owner().toArray(String[]::new));
  }

  /** Logs in at the declared address; returns the cookie, or "" when the answer sets none. */
  static String logIn(RawClient client, String password) {
    return cookieOf(tryPassword(client, password));
  }

  static RawClient.Answer tryPassword(RawClient client, String password, String... headers) {
    String[] all = new String[headers.length + 2];
    all[0] = "Host: " + HOST;
    all[1] = "Origin: " + ORIGIN;
    System.arraycopy(headers, 0, all, 2, headers.length);
    return client.post("/login", "password=" + password.replace(' ', '+'), all);
  }

  static String cookieOf(RawClient.Answer answer) {
    return answer.header("Set-Cookie").map(line -> line.split(";")[0]).orElse("");
  }

  @Override
  public void close() {
    site.close();
  }
}

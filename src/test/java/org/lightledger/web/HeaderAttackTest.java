package org.lightledger.web;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.Socket;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Headers that lie, that do not end, or that mean two things at once. */
class HeaderAttackTest {
  @TempDir static Path folder;
  private static LockedSite locked;

  @BeforeAll
  static void open() {
    locked = new LockedSite(folder);
  }

  @AfterAll
  static void close() {
    locked.close();
  }

  @Test
  void noHostButTheOwnTellsAnything() {
    RawClient client = locked.client();
    for (String host :
        new String[] {
          "evil.example",
          "",
          " ",
          "light.example.org, evil.example",
          "light.example.org evil.example",
          "evil.example, light.example.org",
          "light.example.org:443@evil.example",
          "evil.example@light.example.org",
          "light.example.org/evil",
          "light.example.org#evil.example",
          "light.example.org?x",
          "light.example.org%00",
          "light.example.org%0d%0aX-Planted: 1",
          "light.example.org.",
          "light.example.org:99999999",
          "light.example.org:-1",
          "light.example.org:443:443",
          "localhost:4180:80",
          "localhost.",
          "localhost.evil.example",
          "127.0.0.1.evil.example",
          "0.0.0.0",
          "127.1",
          "2130706433",
          "0x7f.1",
          "[::ffff:127.0.0.1]",
          "[::1].evil.example",
          "[::1%25lo]",
          "l\u0131ght.example.org",
          "x".repeat(5000)
        }) {
      RawClient.Answer answer = client.get("/spots", "Host: " + host, "Cookie: " + locked.cookie());
      assertThat(answer.status()).as(host).isIn(400, 403);
      assertThat(answer.header("X-Planted")).isEmpty();
    }
    for (String request :
        new String[] {
          "GET /spots HTTP/1.1\r\n\r\n",
          "GET /spots HTTP/1.1\r\nHost: localhost\r\nHost: evil.example\r\n\r\n",
          "GET /spots HTTP/1.1\r\nHost: evil.example\r\nHost: localhost\r\n\r\n",
          "GET http://evil.example/spots HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
          "GET /spots HTTP/1.0\r\n\r\n",
          "GET /spots\r\n\r\n",
          "GET /spots HTTP/9.9\r\nHost: localhost\r\nConnection: close\r\n\r\n",
          "GET\t/spots\tHTTP/1.1\r\nHost: localhost\r\n\r\n",
          "G\u0000T /spots HTTP/1.1\r\nHost: localhost\r\n\r\n",
          "GET /spots HTTP/1.1\r\nHost : localhost\r\nConnection: close\r\n\r\n",
          "GET /spots HTTP/1.1\r\n Host: localhost\r\nConnection: close\r\n\r\n",
          "GET /spots HTTP/1.1\r\nHost: localhost\r\nX: a\u0000b\r\nConnection: close\r\n\r\n",
          "POST /spots/1 HTTP/1.1\r\nHost: localhost\r\nContent-Length: 4\r\nTransfer-Encoding:"
              + " chunked\r\n\r\n0\r\n\r\nGET /attention HTTP/1.1\r\nHost: localhost\r\n\r\n",
          "POST /spots/1 HTTP/1.1\r\nHost: localhost\r\nContent-Length: 4\r\nContent-Length:"
              + " 5\r\n\r\nabcde",
          "POST /spots/1 HTTP/1.1\r\nHost: localhost\r\nContent-Length: -1\r\n\r\n",
          "POST /spots/1 HTTP/1.1\r\nHost: localhost\r\nContent-Length: 99999999999999999999\r\n\r\n",
          "POST /login HTTP/1.1\r\nHost: localhost\r\nOrigin: http://localhost\r\nContent-Type:"
              + " application/x-www-form-urlencoded\r\nTransfer-Encoding: chunked\r\n\r\nZZ\r\n",
          "TRACE /spots HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
          "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
          "\u0016\u0003\u0001\u0002\u0000\u0001\u0000\u0001\u00fc\r\n\r\n"
        }) {
      RawClient.Answer answer = client.exchange(request.getBytes(ISO_8859_1));
      assertThat(answer.status()).as(request).isNotEqualTo(500).isNotEqualTo(200);
      assertThat(answer.whole()).doesNotContain("Exception", "\tat ", "Jetty://");
    }
  }

  @Test
  void whatAProxyMaySayChangesNoAddressAndNoRight() {
    RawClient client = locked.client();
    String[] values = {
      "evil.example",
      "127.0.0.1",
      "localhost",
      "light.example.org",
      "https",
      "\"><script>alert(1)</script>",
      "::::",
      "1.2.3.4, 5.6.7.8,",
      ",,,,",
      "unknown",
      "[::1]:80",
      "999.999.999.999",
      "for=127.0.0.1;host=evil.example;proto=http",
      "x".repeat(3000)
    };
    String[] names = {
      "X-Forwarded-For",
      "X-Forwarded-Host",
      "X-Forwarded-Proto",
      "X-Forwarded-Port",
      "X-Forwarded-Prefix",
      "X-Forwarded-Server",
      "X-Original-URL",
      "X-Rewrite-URL",
      "Forwarded",
      "X-Real-IP",
      "True-Client-IP",
      "Via"
    };
    for (String name : names) {
      for (String value : values) {
        String header = name + ": " + value;
        RawClient.Answer stranger = client.get("/spots/1", "Host: light.example.org", header);
        RawClient.Answer owner =
            client.get("/login", "Host: light.example.org", "Cookie: " + locked.cookie(), header);
        assertThat(stranger.status()).as(header).isEqualTo(303);
        assertThat(stranger.header("Location").orElseThrow())
            .as(header)
            .doesNotContain("evil", "script")
            .endsWith("/login?to=%2Fspots%2F1");
        assertThat(owner.status()).isEqualTo(303);
        assertThat(owner.whole()).doesNotContain("evil.example", "<script>alert");
      }
    }
    assertThat(client.sent()).isEqualTo(2 * names.length * values.length);
  }

  @Test
  void headersWithoutEndAreCutOff() {
    RawClient client = locked.client();
    assertThat(client.get("/spots", "X-Long: " + "x".repeat(100_000)).status()).isIn(431, 0);
    assertThat(client.get("/" + "x".repeat(100_000)).status()).isIn(414, 0);
    assertThat(client.get("/spots", "Cookie: " + "a=b; ".repeat(20_000)).status()).isIn(431, 0);
    String[] many = new String[20_000];
    for (int i = 0; i < many.length; i++) {
      many[i] = "X-" + i + ": 1";
    }
    assertThat(client.get("/spots", many).status()).isIn(431, 0);
  }

  @Test
  void twoHundredClientsThatNeverFinishTheirHeadersKeepNobodyOut() throws IOException {
    List<Socket> slow = new ArrayList<>();
    try {
      for (int i = 0; i < 200; i++) {
        Socket socket = new Socket("127.0.0.1", locked.site().port());
        socket.getOutputStream().write("GET /spots HTTP/1.1\r\nHost: loc".getBytes(ISO_8859_1));
        socket.getOutputStream().flush();
        slow.add(socket);
      }
      RawClient client = locked.client();
      long started = System.nanoTime();
      for (int i = 0; i < 20; i++) {
        assertThat(locked.get(client, "/spots").status()).isEqualTo(200);
      }
      assertThat((System.nanoTime() - started) / 1e9).isLessThan(10);
    } finally {
      for (Socket socket : slow) {
        socket.close();
      }
    }
  }
}

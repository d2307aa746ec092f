package org.lightledger.web;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.Socket;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Sends requests exactly as they are written, which a proper client refuses to do, and counts what
 * came back.
 */
final class RawClient {
  private final int port;
  private int sent;

  RawClient(int port) {
    this.port = port;
  }

  /** What came back; status 0 when the server hung up without a word. */
  record Answer(int status, List<String> headers, String body) {
    Optional<String> header(String name) {
      String start = name.toLowerCase(Locale.ROOT) + ":";
      return headers.stream()
          .filter(line -> line.toLowerCase(Locale.ROOT).startsWith(start))
          .map(line -> line.substring(start.length()).strip())
          .findFirst();
    }

    String whole() {
      return String.join("\n", headers) + "\n\n" + body;
    }
  }

  int sent() {
    return sent;
  }

  Answer get(String target, String... headers) {
    return send("GET", target, headers, "");
  }

  /** A form in the encoding of browsers. */
  Answer post(String target, String form, String... headers) {
    List<String> all = new ArrayList<>(List.of(headers));
    all.add("Content-Type: application/x-www-form-urlencoded");
    return send("POST", target, all.toArray(String[]::new), form);
  }

  Answer send(String method, String target, String[] headers, String body) {
    return send(method, target, headers, body.getBytes(UTF_8));
  }

  /** A Host of localhost is added when the headers have none, and a length when there is a body. */
  Answer send(String method, String target, String[] headers, byte[] body) {
    StringBuilder head = new StringBuilder(method + " " + target + " HTTP/1.1\r\n");
    boolean named = false;
    boolean measured = false;
    for (String header : headers) {
      head.append(header).append("\r\n");
      named |= header.toLowerCase(Locale.ROOT).startsWith("host:");
      measured |= header.toLowerCase(Locale.ROOT).startsWith("content-length:");
    }
    if (!named) {
      head.append("Host: localhost:").append(port).append("\r\n");
    }
    if (!measured && (body.length > 0 || method.equals("POST"))) {
      head.append("Content-Length: ").append(body.length).append("\r\n");
    }
    head.append("Connection: close\r\n\r\n");
    ByteArrayOutputStream request = new ByteArrayOutputStream();
    request.writeBytes(head.toString().getBytes(UTF_8));
    request.writeBytes(body);
    return exchange(request.toByteArray());
  }

  Answer exchange(byte[] request) {
    sent++;
    try (Socket socket = new Socket("127.0.0.1", port)) {
      socket.setSoTimeout(30_000);
      ByteArrayOutputStream answer = new ByteArrayOutputStream();
      try {
        socket.getOutputStream().write(request);
        socket.getOutputStream().flush();
        readAll(socket.getInputStream(), answer);
      } catch (java.net.SocketException e) {
        return parse(answer.toByteArray());
      }
      return parse(answer.toByteArray());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void readAll(InputStream in, ByteArrayOutputStream answer) throws IOException {
    byte[] buffer = new byte[16_384];
    for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
      answer.write(buffer, 0, read);
    }
  }

  private static Answer parse(byte[] bytes) {
    String text = new String(bytes, ISO_8859_1);
    int end = text.indexOf("\r\n\r\n");
    if (!text.startsWith("HTTP/1.") || end < 0) {
      return new Answer(0, List.of(), text);
    }
    List<String> lines = List.of(text.substring(0, end).split("\r\n"));
    return new Answer(
        Integer.parseInt(lines.get(0).split(" ")[1]),
        lines.subList(1, lines.size()),
        new String(bytes, end + 4, bytes.length - end - 4, UTF_8));
  }
}

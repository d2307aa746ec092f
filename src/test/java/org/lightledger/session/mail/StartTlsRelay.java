package org.lightledger.session.mail;

import static java.nio.charset.StandardCharsets.US_ASCII;

import com.icegreen.greenmail.util.DummySSLServerSocketFactory;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;

/**
 * Stands before a mail server that speaks in the clear, and lets nothing pass but by TLS that was
 * started on the way (RFC 3207). It keeps what was said before.
 */
final class StartTlsRelay implements AutoCloseable {
  private static final char[] KEY = "changeit".toCharArray();

  private final ServerSocket listener;
  private final int serverPort;
  private final List<String> clear = new CopyOnWriteArrayList<>();

  StartTlsRelay(int serverPort) throws IOException {
    this.serverPort = serverPort;
    this.listener = new ServerSocket(0, 5, InetAddress.getLoopbackAddress());
    start(this::serve);
  }

  private interface Work {
    void run() throws IOException, GeneralSecurityException;
  }

  int port() {
    return listener.getLocalPort();
  }

  /** What the client said before it was private. */
  List<String> clear() {
    return clear;
  }

  private static void start(Work work) {
    Thread thread =
        new Thread(
            () -> {
              try {
                work.run();
              } catch (IOException | GeneralSecurityException e) {
                // The other side has ended it.
                Thread.currentThread().interrupt();
              }
            });
    thread.setDaemon(true);
    thread.start();
  }

  private void serve() throws IOException, GeneralSecurityException {
    while (!listener.isClosed()) {
      try (Socket client = listener.accept();
          SSLSocket secret = upgrade(client);
          Socket server = new Socket(InetAddress.getLoopbackAddress(), serverPort)) {
        line(server.getInputStream());
        start(() -> server.getInputStream().transferTo(secret.getOutputStream()));
        secret.getInputStream().transferTo(server.getOutputStream());
      }
    }
  }

  /** The conversation up to the hand-shake. */
  private SSLSocket upgrade(Socket client) throws IOException, GeneralSecurityException {
    InputStream in = client.getInputStream();
    say(client, "220 relay");
    String line = line(in);
    while (!line.equals("STARTTLS")) {
      clear.add(line);
      say(client, line.startsWith("EHLO") ? "250-relay\r\n250 STARTTLS" : "530 STARTTLS first");
      line = line(in);
    }
    say(client, "220 go on");
    SSLSocket secret =
        (SSLSocket)
            context().getSocketFactory().createSocket(client, "127.0.0.1", client.getPort(), true);
    secret.setUseClientMode(false);
    return secret;
  }

  private static String line(InputStream in) throws IOException {
    StringBuilder line = new StringBuilder();
    int read = in.read();
    while (read >= 0 && read != '\n') {
      line.append((char) read);
      read = in.read();
    }
    if (read < 0) {
      throw new IOException("the conversation ended");
    }
    return line.toString().strip();
  }

  private static void say(Socket client, String line) throws IOException {
    OutputStream out = client.getOutputStream();
    out.write((line + "\r\n").getBytes(US_ASCII));
    out.flush();
  }

  /** With the key that the test server has too. */
  private static SSLContext context() throws IOException, GeneralSecurityException {
    KeyStore store = KeyStore.getInstance("PKCS12");
    try (InputStream in = DummySSLServerSocketFactory.class.getResourceAsStream("/greenmail.p12")) {
      store.load(in, KEY);
    }
    KeyManagerFactory keys = KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    keys.init(store, KEY);
    SSLContext context = SSLContext.getInstance("TLS");
    context.init(keys.getKeyManagers(), null, null);
    return context;
  }

  @Override
  public void close() throws IOException {
    listener.close();
  }
}

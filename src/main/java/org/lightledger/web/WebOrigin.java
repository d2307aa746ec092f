package org.lightledger.web;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Scheme, host and port of a site (RFC 6454), as a browser names them in the header Origin.
 *
 * @param scheme "http" or "https"
 * @param host a name or an address, in small letters; IPv6 in brackets
 * @param port the port, the scheme's own if none was named
 */
record WebOrigin(String scheme, String host, int port) {
  private static final int HTTP = 80;
  private static final int HTTPS = 443;

  /** Reads an address such as "https://light.example.org"; what names it goes before an error. */
  static WebOrigin parse(String name, String text) {
    try {
      URI uri = new URI(text);
      String scheme = uri.getScheme() == null ? "" : uri.getScheme().toLowerCase(Locale.ROOT);
      boolean bare =
          uri.getRawUserInfo() == null
              && uri.getRawQuery() == null
              && uri.getRawFragment() == null
              && (uri.getRawPath().isEmpty() || uri.getRawPath().equals("/"));
      if (uri.getHost() != null && bare && (scheme.equals("http") || scheme.equals("https"))) {
        int port = uri.getPort() == -1 ? standardPort(scheme) : uri.getPort();
        return new WebOrigin(scheme, uri.getHost().toLowerCase(Locale.ROOT), port);
      }
    } catch (URISyntaxException e) {
      throw refused(name, text, e);
    }
    throw refused(name, text, null);
  }

  private static IllegalArgumentException refused(
      String name, String text, @Nullable Exception cause) {
    return new IllegalArgumentException(
        "expected "
            + name
            + " as http:// or https:// with a name and nothing after it, such as"
            + " https://light.example.org, found "
            + Fields.quoted(text),
        cause);
  }

  static WebOrigin ofListener(String host, int port) {
    String name = host.contains(":") && !host.startsWith("[") ? "[" + host + "]" : host;
    return new WebOrigin("http", name.toLowerCase(Locale.ROOT), port);
  }

  boolean isSecure() {
    return scheme.equals("https");
  }

  /** Whether a header Host names this site. */
  boolean isNamedBy(String hostHeader) {
    String sent = hostHeader.toLowerCase(Locale.ROOT);
    return sent.equals(host + ":" + port) || (port == standardPort(scheme) && sent.equals(host));
  }

  /** The form of the header Origin. */
  String text() {
    return scheme + "://" + host + (port == standardPort(scheme) ? "" : ":" + port);
  }

  private static int standardPort(String scheme) {
    return scheme.equals("https") ? HTTPS : HTTP;
  }
}

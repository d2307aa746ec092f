package org.lightledger.web;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * Where the server listens, and how it is reached.
 *
 * @param host the address of the owner's pages
 * @param port their port, 0 for any free one
 * @param shareHost the address on which the clients' pages alone are served, or null for none
 * @param sharePort their port, 0 for any free one
 * @param shareAddress how clients reach the pages from outside, such as "https://example.org", or
 *     null when it is the address of the listener
 * @param ownerAddress how the owner reaches the owner's pages from outside, such as
 *     "https://light.example.org", or null when it is the address of the listener
 * @param trustedProxy the address of a proxy whose word on who asks is believed, or null for none
 */
public record WebSettings(
    String host,
    int port,
    @Nullable String shareHost,
    int sharePort,
    @Nullable String shareAddress,
    @Nullable String ownerAddress,
    @Nullable String trustedProxy) {

  /** Clients' pages may lie below a path of a site. */
  private static final Pattern PATH = Pattern.compile("^([a-zA-Z]+://[^/?#]+)/[^?#]*$");

  /** Checks the addresses. */
  public WebSettings {
    if (shareAddress != null) {
      WebOrigin.parse(
          "the address of the clients' pages", PATH.matcher(shareAddress).replaceFirst("$1"));
    }
    if (ownerAddress != null) {
      WebOrigin.parse("the address of your pages", ownerAddress);
    }
    if (trustedProxy != null && ClientAddresses.literal(trustedProxy) == null) {
      throw new IllegalArgumentException(
          "expected the trusted proxy as an address in numbers such as 127.0.0.1, found "
              + Fields.quoted(trustedProxy));
    }
    if (ownerAddress == null && inet(host).isAnyLocalAddress()) {
      throw new IllegalArgumentException(
          "expected to be told how you open your pages when they listen on every address ("
              + host
              + "), found nothing; add --owner-address, such as https://light.example.org");
    }
  }

  /**
   * Settings of a server whose owner's pages are reached as they listen.
   *
   * @param host the address of the owner's pages
   * @param port their port, 0 for any free one
   * @param shareHost the address of the clients' pages, or null
   * @param sharePort their port, 0 for any free one
   * @param shareAddress how clients reach them from outside, or null
   */
  public WebSettings(
      String host,
      int port,
      @Nullable String shareHost,
      int sharePort,
      @Nullable String shareAddress) {
    this(host, port, shareHost, sharePort, shareAddress, null, null);
  }

  /**
   * The owner's pages on this machine alone.
   *
   * @param port the port, 0 for any free one
   * @return the settings
   */
  public static WebSettings loopback(int port) {
    return new WebSettings("127.0.0.1", port, null, 0, null);
  }

  /**
   * Whether others than the people at this machine can reach the owner's pages.
   *
   * @return true when they can, so that a password is needed
   */
  public boolean isExposed() {
    return ownerAddress != null || !inet(host).isLoopbackAddress();
  }

  /** How the owner's pages are reached from outside, or null when they are not. */
  @Nullable WebOrigin ownerOrigin(int actualPort) {
    if (ownerAddress != null) {
      return WebOrigin.parse("the address of your pages", ownerAddress);
    }
    return isExposed() ? WebOrigin.ofListener(host, actualPort) : null;
  }

  /** The site of the clients' pages, or null when none was declared. */
  @Nullable WebOrigin shareOrigin() {
    return shareAddress == null
        ? null
        : WebOrigin.parse(
            "the address of the clients' pages", PATH.matcher(shareAddress).replaceFirst("$1"));
  }

  private static InetAddress inet(String host) {
    try {
      return InetAddress.getByName(host);
    } catch (UnknownHostException e) {
      throw new IllegalArgumentException(
          "expected an address of this machine to listen on, found "
              + Fields.quoted(host)
              + ", which leads nowhere; 127.0.0.1 is this machine alone",
          e);
    }
  }
}

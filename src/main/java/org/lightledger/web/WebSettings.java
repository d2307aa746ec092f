package org.lightledger.web;

import org.jspecify.annotations.Nullable;

/**
 * Where the server listens.
 *
 * @param host the address of the owner's pages; a loopback address
 * @param port their port, 0 for any free one
 * @param shareHost the address on which the clients' pages alone are served, or null for none
 * @param sharePort their port, 0 for any free one
 * @param shareAddress how clients reach the pages from outside, such as "https://example.org", or
 *     null when it is the address of the listener
 */
public record WebSettings(
    String host,
    int port,
    @Nullable String shareHost,
    int sharePort,
    @Nullable String shareAddress) {

  /**
   * The owner's pages on this machine alone.
   *
   * @param port the port, 0 for any free one
   * @return the settings
   */
  public static WebSettings loopback(int port) {
    return new WebSettings("127.0.0.1", port, null, 0, null);
  }
}

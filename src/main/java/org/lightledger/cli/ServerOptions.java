package org.lightledger.cli;

import org.jspecify.annotations.Nullable;
import org.lightledger.web.WebSettings;
import picocli.CommandLine.Option;

/** Where the pages are served. */
final class ServerOptions {
  @Option(
      names = "--port",
      paramLabel = "N",
      defaultValue = "4180",
      description =
          "The port of your own pages; ${DEFAULT-VALUE} if not given, 0 for any free one.")
  private int port;

  @Option(
      names = "--host",
      paramLabel = "ADDRESS",
      defaultValue = "127.0.0.1",
      description =
          "The address of your own pages; any other than this machine's loopback needs a password.")
  private String host;

  @Option(
      names = "--share-host",
      paramLabel = "ADDRESS",
      description = "Serve the clients' pages, and nothing else, on this address as well.")
  private @Nullable String shareHost;

  @Option(
      names = "--share-port",
      paramLabel = "N",
      defaultValue = "4181",
      description = "The port of the clients' pages; ${DEFAULT-VALUE} if not given.")
  private int sharePort;

  @Option(
      names = "--share-address",
      paramLabel = "URL",
      description = "How clients reach those pages from outside, such as https://example.org.")
  private @Nullable String shareAddress;

  @Option(
      names = "--owner-address",
      paramLabel = "URL",
      description =
          "How you reach your own pages from outside, such as https://light.example.org; needs a"
              + " password.")
  private @Nullable String ownerAddress;

  @Option(
      names = "--trusted-proxy",
      paramLabel = "ADDRESS",
      description =
          "The address of a proxy that says in X-Forwarded-For who asks, such as 127.0.0.1.")
  private @Nullable String trustedProxy;

  WebSettings settings() {
    return new WebSettings(
        host, port, shareHost, sharePort, shareAddress, ownerAddress, trustedProxy);
  }
}

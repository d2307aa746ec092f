package org.lightledger.share;

import java.net.URI;
import java.net.URISyntaxException;
import java.time.Instant;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.lightledger.session.outgoing.ClientLinks;

/** Which of a session's links a message can point to. */
public final class OpenLinks {
  private OpenLinks() {}

  /**
   * The newest links that work.
   *
   * @param shares a session's shares, newest first
   * @param now the present
   * @param address how clients reach the pages: scheme, host and port, perhaps a path
   * @return the links; none when only this computer reaches the address
   */
  public static ClientLinks of(List<Share> shares, Instant now, String address) {
    return isReachable(address)
        ? new ClientLinks(
            newest(shares, now, address, ShareTerms::questions),
            newest(shares, now, address, ShareTerms::plan))
        : ClientLinks.NONE;
  }

  private static @Nullable String newest(
      List<Share> shares, Instant now, String address, Predicate<ShareTerms> shows) {
    return shares.stream()
        .filter(share -> !share.terms().asFile() && shows.test(share.terms()))
        .filter(share -> share.stateAt(now) == Share.State.OPEN)
        .findFirst()
        .map(share -> address(share, address))
        .orElse(null);
  }

  /**
   * What a client opens.
   *
   * @param share a link
   * @param address how clients reach the pages
   * @return the whole address
   */
  public static String address(Share share, String address) {
    return (address.endsWith("/") ? address.substring(0, address.length() - 1) : address)
        + "/s/"
        + share.token();
  }

  /**
   * Whether others than the people at this computer can open an address.
   *
   * @param address a web address
   * @return false for the computer's own names (RFC 6761, RFC 1122 3.2.1.3, RFC 4291 2.5.3)
   */
  public static boolean isReachable(String address) {
    try {
      String host = new URI(address).getHost();
      return host != null
          && !host.equalsIgnoreCase("localhost")
          && !host.startsWith("127.")
          && !host.equals("[::1]");
    } catch (URISyntaxException e) {
      return false;
    }
  }
}

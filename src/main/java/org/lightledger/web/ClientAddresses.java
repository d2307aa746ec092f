package org.lightledger.web;

import io.javalin.http.Context;
import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;
import java.util.Collections;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * From where a request comes, for counting. X-Forwarded-For is believed only from the proxy that
 * was declared, and only its last word, which is the proxy's own; the rest anybody can write.
 */
final class ClientAddresses {
  /** Numbers alone, so that nothing is ever looked up. */
  private static final Pattern LITERAL =
      Pattern.compile("(\\d{1,3}\\.){3}\\d{1,3}|(?=[^:]*:)[0-9A-Fa-f:.]{2,45}");

  /** A home or an office has a whole network of IPv6 addresses: RFC 6177 gives 64 bits to one. */
  private static final int IPV6_NETWORK_BYTES = 8;

  private final @Nullable InetAddress proxy;

  ClientAddresses(@Nullable String trustedProxy) {
    this.proxy = trustedProxy == null ? null : literal(trustedProxy);
  }

  /** The address, or the network when it is IPv6. */
  String of(Context ctx) {
    InetAddress peer = literal(ctx.req().getRemoteAddr());
    if (peer == null) {
      return "unknown";
    }
    if (peer.equals(proxy)) {
      InetAddress told = lastWord(Collections.list(ctx.req().getHeaders("X-Forwarded-For")));
      return name(told == null ? peer : told);
    }
    return name(peer);
  }

  private static @Nullable InetAddress lastWord(List<String> lines) {
    if (lines.isEmpty()) {
      return null;
    }
    String line = lines.get(lines.size() - 1);
    return literal(line.substring(line.lastIndexOf(',') + 1).strip());
  }

  private static String name(InetAddress address) {
    if (address instanceof Inet6Address) {
      byte[] network = Arrays.copyOf(address.getAddress(), IPV6_NETWORK_BYTES);
      return HexFormat.ofDelimiter(":").formatHex(network) + "/64";
    }
    return address.getHostAddress();
  }

  /** Reads an address in numbers; null for anything else. Nothing is looked up. */
  static @Nullable InetAddress literal(String text) {
    String bare = text.startsWith("[") && text.endsWith("]") ? inner(text) : text;
    if (!LITERAL.matcher(bare).matches()) {
      return null;
    }
    try {
      return InetAddress.getByName(bare);
    } catch (UnknownHostException e) {
      return null;
    }
  }

  private static String inner(String text) {
    return text.substring(1, text.length() - 1);
  }
}

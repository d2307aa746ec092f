package org.lightledger.share;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.session.outgoing.ClientLinks;

class OpenLinksTest {
  private static final Instant NOW = Instant.parse("2026-11-30T12:00:00Z");
  private static final String SITE = "https://light.example.org";

  private static Share share(
      String token,
      boolean asFile,
      boolean plan,
      boolean questions,
      Instant ends,
      Instant revoked) {
    return new Share(
        1,
        ShareSubject.session(4),
        new ShareTerms(asFile, null, "", false, plan, questions, ends),
        token,
        new ShareTokens().keys(),
        NOW.minus(Duration.ofDays(1)),
        revoked,
        Share.Seen.NEVER,
        null,
        null);
  }

  private static Share open(String token, boolean plan, boolean questions) {
    return share(token, false, plan, questions, NOW.plusSeconds(1), null);
  }

  @Test
  void theNewestLinkThatShowsItIsNamed() {
    List<Share> shares =
        List.of(open("new", false, true), open("both", true, true), open("old", true, true));

    assertThat(OpenLinks.of(shares, NOW, SITE + "/"))
        .isEqualTo(new ClientLinks(SITE + "/s/new", SITE + "/s/both"));
  }

  @Test
  void filesAndLinksThatNoLongerWorkAreNot() {
    List<Share> shares =
        List.of(
            share("file", true, true, true, null, null),
            share("expired", false, true, true, NOW, null),
            share("revoked", false, true, true, null, NOW));

    assertThat(OpenLinks.of(shares, NOW, SITE)).isEqualTo(ClientLinks.NONE);
  }

  @ParameterizedTest
  @CsvSource({
    "https://light.example.org, true",
    "http://192.168.1.5:4181, true",
    "http://localhost:4180, false",
    "http://LocalHost, false",
    "http://127.0.0.1:4180, false",
    "http://127.8.8.8, false",
    "http://[::1]:4180, false",
    "http://[fd00::1]:4180, true",
    "light.example.org, false",
    "not an address, false",
  })
  void anAddressThatOnlyThisComputerKnowsIsNoLink(String address, boolean reachable) {
    assertThat(OpenLinks.isReachable(address)).isEqualTo(reachable);
    assertThat(OpenLinks.of(List.of(open("t", true, true)), NOW, address).plan() != null)
        .isEqualTo(reachable);
  }
}

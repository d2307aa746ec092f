package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.lightledger.share.Share;
import org.lightledger.share.ShareKeys;
import org.lightledger.share.ShareSubject;
import org.lightledger.share.ShareTerms;

class ShareStoreTest extends LedgerTestBase {
  private static final String TOKEN = "Zk3-_abcdefghijklmnopq";
  private static final String OTHER_TOKEN = "Zk3-_abcdefghijklmnopqr";
  private static final Instant MADE = Instant.parse("2026-05-01T06:20:00.123Z");
  private static final Instant END = Instant.parse("2026-05-08T06:20:00Z");

  private long list;
  private int made;

  @BeforeEach
  void fill() {
    list = ledger.write(session -> session.shortlists().create("Ana and Luis", ""));
  }

  @Test
  void aShareComesBackAsItWentIn() {
    long first = create(TOKEN, true, END);
    long second = create(OTHER_TOKEN, false, null);
    Share ending = share(first, TOKEN, true, END);
    Share lasting = share(second, OTHER_TOKEN, false, null);
    assertThat(find(TOKEN)).contains(ending);
    assertThat(find(OTHER_TOKEN)).contains(lasting);
    assertThat(find("Zk3-_abcdefghijklmnopQ")).isEmpty();
    List<Share> all = ledger.read(session -> session.shares().of(ShareSubject.shortlist(list)));
    assertThat(all).containsExactly(lasting, ending);
  }

  @Test
  void aShareIsOpenUntilItExpiresOrIsRevoked() {
    long id = create(TOKEN, true, END);
    assertThat(find(TOKEN).orElseThrow().stateAt(END.minusMillis(1))).isEqualTo(Share.State.OPEN);
    assertThat(find(TOKEN).orElseThrow().stateAt(END)).isEqualTo(Share.State.EXPIRED);
    ledger.change(session -> session.shares().seen(id, MADE.plusSeconds(5)));
    ledger.change(session -> session.shares().revoke(id, MADE.plusSeconds(10)));
    ledger.change(session -> session.shares().revoke(id, MADE.plusSeconds(20)));
    ledger.change(session -> session.shares().seen(id, MADE.plusSeconds(15)));
    assertThat(find(TOKEN).orElseThrow().revokedAt()).isEqualTo(MADE.plusSeconds(10));
    assertThat(find(TOKEN).orElseThrow().seen())
        .isEqualTo(new Share.Seen(2, MADE.plusSeconds(5), MADE.plusSeconds(15)));
    assertThat(find(TOKEN).orElseThrow().stateAt(MADE.plusSeconds(11)))
        .isEqualTo(Share.State.REVOKED);
    create(OTHER_TOKEN, true, null);
    assertThat(find(OTHER_TOKEN).orElseThrow().stateAt(Instant.MAX)).isEqualTo(Share.State.OPEN);
  }

  @Test
  void aWeakOrRepeatedTokenIsRefused() {
    create(TOKEN, true, null);
    assertThatThrownBy(() -> create(TOKEN, true, null))
        .isInstanceOf(LedgerException.class)
        .hasMessageContaining("already has a row with this shares.token_sha256");
    for (String weak : List.of("", "abcdefghijklmnopqrstu", "abcdefghijklmnopqrst/.")) {
      assertThatThrownBy(() -> create(weak, true, null))
          .isInstanceOf(LedgerException.class)
          .hasMessageContaining(
              "a share's token must be text of 22 characters or more of A-Z a-z 0-9 - _");
    }
  }

  @Test
  void theSecretEndsInNoLog() {
    create(TOKEN, true, null);
    assertThat(find(TOKEN).orElseThrow().toString()).doesNotContain(TOKEN);
  }

  @Test
  void whatIsNotThereCanNotBeChanged() {
    for (Runnable work :
        List.<Runnable>of(
            () -> ledger.change(session -> session.shares().revoke(9, MADE)),
            () -> ledger.change(session -> session.shares().seen(9, MADE)))) {
      assertThatThrownBy(work::run)
          .isInstanceOf(LedgerException.class)
          .hasMessageContaining("found no share with the number 9");
    }
  }

  @Test
  void settingsAreSetReplacedAndForgotten() {
    ledger.change(session -> session.settings().set("grouping-distance-m", "25"));
    ledger.change(session -> session.settings().set("grouping-distance-m", "40"));
    ledger.change(session -> session.settings().set("name", "Größe ☀"));
    Map<String, String> all = ledger.read(session -> session.settings().all());
    assertThat(all).isEqualTo(Map.of("grouping-distance-m", "40", "name", "Größe ☀"));
    ledger.change(session -> session.settings().remove("grouping-distance-m"));
    Optional<String> gone = ledger.read(session -> session.settings().find("grouping-distance-m"));
    Optional<String> kept = ledger.read(session -> session.settings().find("name"));
    assertThat(gone).isEmpty();
    assertThat(kept).contains("Größe ☀");
  }

  private long create(String token, boolean exactPositions, @Nullable Instant expires) {
    return ledger.write(
        session ->
            session
                .shares()
                .create(
                    ShareSubject.shortlist(list),
                    ShareTerms.ofShortlist(exactPositions, expires),
                    token,
                    keys(++made),
                    MADE));
  }

  private Share share(long id, String token, boolean exactPositions, @Nullable Instant expires) {
    return new Share(
        id,
        ShareSubject.shortlist(list),
        ShareTerms.ofShortlist(exactPositions, expires),
        token,
        keys((int) id),
        MADE,
        null,
        Share.Seen.NEVER,
        null,
        null);
  }

  private static ShareKeys keys(int number) {
    String digits = String.format(Locale.ROOT, "%016x", number);
    return new ShareKeys(digits.repeat(4), digits);
  }

  private Optional<Share> find(String token) {
    return ledger.read(session -> session.shares().find(token));
  }
}

package org.lightledger.field;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TickRuleTest {
  private static final Instant NOW = Instant.parse("2026-12-15T16:00:00Z");

  /** Hours before now: when the list went along, the ledger's word (none: -), the phone's word. */
  @ParameterizedTest
  @CsvSource({
    "5, -, false, 2, true, false",
    "5, 6, false, 2, true, false",
    "5, 4, false, 2, true, true",
    "5, 2, false, 2, true, true",
    "5, 1, false, 2, false, true",
    "5, 1, true, 2, false, false"
  })
  void theLaterOfTwoTicksCounts(
      long taken, String ledger, boolean done, long phone, boolean applies, boolean conflict) {
    Instant since = ledger.equals("-") ? null : before(Long.parseLong(ledger));

    TickRule.Verdict verdict =
        TickRule.decide(new TickRule.State(done, since), true, before(phone), before(taken), NOW);

    assertThat(verdict).isEqualTo(new TickRule.Verdict(applies, before(phone), conflict));
  }

  /** Else a phone an hour ahead would win against what is said at home in the next hour. */
  @ParameterizedTest
  @CsvSource({"-1", "-1000"})
  void aPhoneThatIsAheadSaysNothingAboutTheFuture(long phone) {
    TickRule.Verdict verdict =
        TickRule.decide(new TickRule.State(false, NOW), true, before(phone), before(5), NOW);

    assertThat(verdict.at()).isEqualTo(NOW);
    assertThat(verdict.applies()).isTrue();
  }

  private static Instant before(long hours) {
    return NOW.minusSeconds(hours * 3600);
  }
}

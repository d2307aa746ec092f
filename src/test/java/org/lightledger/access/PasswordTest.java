package org.lightledger.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.security.SecureRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PasswordTest {
  /** From the tests of Argon2's reference implementation (src/test.c): "password", "somesalt". */
  private static final String REFERENCE =
      "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";

  @Test
  void theReferenceImplementationsHashIsReadAndKnownToBeOutdated() {
    PasswordHash hash = PasswordHash.parse(REFERENCE).orElseThrow();

    assertThat(hash.matches("password")).isTrue();
    assertThat(hash.matches("Password")).isFalse();
    assertThat(hash.isOutdated()).isTrue();
    assertThat(hash.text()).isEqualTo(REFERENCE);
  }

  @Test
  void aHashOfTodayKeepsNothingOfThePasswordAndNeverRepeats() {
    String password = "grass boat pepper hinge";
    PasswordHash hash = PasswordHash.of(password, new SecureRandom());
    PasswordHash again = PasswordHash.parse(hash.text()).orElseThrow();

    assertThat(hash.text()).startsWith("$argon2id$v=19$m=65536,t=3,p=4$").doesNotContain("grass");
    assertThat(again.matches(password)).isTrue();
    assertThat(again.matches(password + " ")).isFalse();
    assertThat(again.isOutdated()).isFalse();
    assertThat(PasswordHash.of(password, new SecureRandom()).text()).isNotEqualTo(hash.text());
  }

  @Test
  void oneLetterTypedInTwoWaysIsOnePassword() {
    PasswordHash hash = PasswordHash.of("caf\u00e9 at the old weir", new SecureRandom());

    assertThat(hash.matches("cafe\u0301 at the old weir")).isTrue();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "password",
        "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$",
        "$argon2i$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=9999999,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=65536,t=999,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=65536,t=0,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
        "$argon2id$v=19$m=8,t=1,p=4$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"
      })
  void whatIsNoHashOrWouldEatTheMachineIsNone(String text) {
    assertThat(PasswordHash.parse(text)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "wet boots and a brass tripod",
        "fifteen letters",
        "\u00fc\u00fc\u00e4 morgen am fluss",
        "12 sheep 34 goats 5 dogs",
        "correcthorsebatterystaples"
      })
  void longPasswordsOfAnyCompositionAreTaken(String password) {
    assertThatCode(() -> PasswordRules.require(password)).doesNotThrowAnyException();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "aaaaaaaaaaaaaaaaaa",
        "abcabcabcabcabcabc",
        "123456789012345",
        "543210987654321",
        "qwertyuiopasdfghjkl",
        "abcdefghijklmnopqrst",
        "Lightledger2026!",
        "Password12345678",
        "passwordpassword",
        "correct horse battery staple",
        "                  "
      })
  void whatIsTriedFirstIsRefused(String password) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> PasswordRules.require(password))
        .withMessageContaining("nobody tries first");
  }

  @Test
  void lengthIsCountedInCodePointsAndTheMessageNeverHoldsThePassword() {
    String fourteen = "\ud83c\udf05".repeat(13) + "x";

    assertThatIllegalArgumentException()
        .isThrownBy(() -> PasswordRules.require(fourteen))
        .withMessageContaining("15 to 256 characters, found 14")
        .withMessageNotContaining("\ud83c\udf05");
    assertThatCode(() -> PasswordRules.require(fourteen + "y")).doesNotThrowAnyException();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> PasswordRules.require("ab cd ef ".repeat(40)))
        .withMessageContaining("found 360");
  }
}

package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PasswordVerbTest {
  private static final InputStream STANDARD_INPUT = System.in;

  @TempDir Path home;

  @AfterEach
  void giveStandardInputBack() {
    System.setIn(STANDARD_INPUT);
  }

  private Console.Outcome type(String input, String... args) {
    System.setIn(new ByteArrayInputStream(input.getBytes(StandardCharsets.UTF_8)));
    return new Console(home).run(args);
  }

  @Test
  void aPasswordIsSetChangedAndRemoved() {
    Console.Outcome set = type("wet boots and a tripod\nmore\n", "password", "--stdin", "--json");
    Console.Outcome changed = type("dry boots and a tripod", "password", "--stdin", "--json");
    Console.Outcome removed = type("", "password", "--remove", "--json");
    Console.Outcome none = type("", "password", "--remove", "--json");

    assertThat(set.out()).isEqualToIgnoringWhitespace("{\"password\":\"set\"}");
    assertThat(changed.out()).isEqualToIgnoringWhitespace("{\"password\":\"changed\"}");
    assertThat(removed.out()).isEqualToIgnoringWhitespace("{\"password\":\"removed\"}");
    assertThat(none.out()).isEqualToIgnoringWhitespace("{\"password\":\"none\"}");
    assertThat(set.exitCode()).isZero();
  }

  @Test
  void aShortOneIsRefusedWithoutBeingRepeated() {
    Console.Outcome outcome = type("tooshort\n", "password", "--stdin");

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err()).contains("15 to 256 characters, found 8").doesNotContain("tooshort");
    assertThat(type("", "password", "--remove", "--json").out()).contains("none");
  }

  @Test
  void itIsNeverTakenFromTheCommandLine() {
    assertThat(type("", "password", "wet boots and a tripod").exitCode()).isEqualTo(2);
    assertThat(type("", "password", "--stdin").err()).contains("first line of standard input");
    assertThat(type("", "password", "--stdin", "--remove").exitCode()).isEqualTo(2);
  }

  @Test
  void whoServesToOthersWithoutAPasswordIsTaught() {
    Console.Outcome declared = type("", "serve", "--owner-address", "https://light.example.org");
    Console.Outcome everywhere = type("", "serve", "--host", "0.0.0.0");
    Console.Outcome wrong = type("", "serve", "--owner-address", "light.example.org/pages");
    Console.Outcome proxy = type("", "serve", "--trusted-proxy", "my-proxy");

    assertThat(declared.exitCode()).isEqualTo(2);
    assertThat(declared.err())
        .contains("expected an owner's password", "found none", "the verb \"password\"");
    assertThat(everywhere.exitCode()).isEqualTo(2);
    assertThat(everywhere.err()).contains("add --owner-address");
    assertThat(wrong.err())
        .contains("https://light.example.org, found \"light.example.org/pages\"");
    assertThat(proxy.err()).contains("such as 127.0.0.1, found \"my-proxy\"");
  }
}

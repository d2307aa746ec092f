package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/**
 * Runs the README's examples: in each block marked "console", a line that starts with "$
 * lightledger" is a command and the lines after it are its output, where "…" stands for anything.
 * Files that examples write lie in a folder of the test's own.
 */
class ReadmeTest {
  private static final String PROMPT = "$ lightledger ";

  @TempDir static Path home;

  @BeforeAll
  static void fillTheDemo() {
    assertThat(new Console(home).run("demo", "--no-serve").exitCode()).isZero();
  }

  @TestFactory
  List<DynamicTest> examples() throws IOException {
    List<DynamicTest> tests = new ArrayList<>();
    String readme = Files.readString(Path.of("README.md"));
    for (String block : readme.split("```console\n")) {
      if (block.startsWith(PROMPT)) {
        addExamples(block.substring(0, block.indexOf("```")), tests);
      }
    }
    assertThat(tests).hasSizeGreaterThanOrEqualTo(4);
    return tests;
  }

  private static void addExamples(String block, List<DynamicTest> tests) {
    for (String example : block.split(Pattern.quote(PROMPT))) {
      if (!example.isBlank()) {
        int end = example.indexOf('\n');
        String command = example.substring(0, end).strip();
        String expected = example.substring(end + 1).strip();
        tests.add(DynamicTest.dynamicTest(command, () -> check(command, expected)));
      }
    }
  }

  private static void check(String command, String expected) {
    List<String> words = new ArrayList<>(List.of("--ledger", home.resolve("demo").toString()));
    for (String word : command.split(" ")) {
      boolean isNewFile = word.endsWith(".geojson");
      words.add(isNewFile ? home.resolve(word).toString() : word);
    }
    Console.Outcome outcome = new Console(home).run(words.toArray(String[]::new));

    assertThat(outcome.err()).isEmpty();
    assertThat(outcome.exitCode()).isZero();
    assertThat(outcome.out().strip()).matches(Pattern.compile(pattern(expected), Pattern.DOTALL));
  }

  private static String pattern(String expected) {
    List<String> parts = new ArrayList<>();
    for (String part : expected.split("…", -1)) {
      parts.add(Pattern.quote(part));
    }
    return String.join(".*", parts);
  }
}

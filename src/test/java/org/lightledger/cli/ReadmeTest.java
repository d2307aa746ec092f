package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
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

  /** The main job as one would type it: its commands in their order, in a ledger of its own. */
  @Test
  void theMainJobBooksTheClientThatItEnters(@TempDir Path other) throws IOException {
    assertThat(new Console(other).run("demo", "--no-serve").exitCode()).isZero();
    String readme = Files.readString(Path.of("README.md"));
    int from = readme.indexOf("## The main job");
    String job = readme.substring(from, readme.indexOf("\n## ", from + 1));
    Matcher commands =
        Pattern.compile("^(?:\\$ )?lightledger (.*)$", Pattern.MULTILINE).matcher(job);
    int typed = 0;
    for (; commands.find(); typed++) {
      Console.Outcome outcome = run(other, commands.group(1));
      assertThat(outcome.exitCode()).as(commands.group() + ": " + outcome.err()).isZero();
    }

    assertThat(typed).isGreaterThanOrEqualTo(9);
    assertThat(run(other, "session list").out()).contains("Berta");
    assertThat(run(other, "session show 3").out())
        .contains("Berta", "spot 2  Poplar Avenue", "spot 7  Reed Bank");
  }

  private static Console.Outcome run(Path home, String command) {
    List<String> words = new ArrayList<>(List.of("--ledger", home.resolve("demo").toString()));
    Matcher word = Pattern.compile("\"([^\"]*)\"|\\S+").matcher(command);
    while (word.find()) {
      String said = word.group(1) == null ? word.group() : word.group(1);
      boolean isNewFile = said.endsWith(".geojson") || said.endsWith(".html");
      words.add(isNewFile ? home.resolve(said).toString() : said);
    }
    return new Console(home).run(words.toArray(String[]::new));
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
    Console.Outcome outcome = run(home, command);

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

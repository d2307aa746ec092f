package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The machine's zone and locale change no answer: the same job in two Javas set up differently. */
class AmbientTest {
  @TempDir Path folder;

  @Test
  void theSameAnswersInAucklandInGermanAsInUtc() throws IOException, InterruptedException {
    String utc = answers("utc", "-Duser.timezone=UTC", "-Duser.language=en", "-Duser.country=US");
    String auckland =
        answers(
            "auckland",
            "-Duser.timezone=Pacific/Auckland",
            "-Duser.language=de",
            "-Duser.country=DE");

    assertThat(utc).contains("\"answers\"", "Poplar Avenue");
    assertThat(auckland).isEqualTo(utc);
  }

  private String answers(String name, String... settings) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of(settings));
    command.addAll(
        List.of(
            "-cp",
            System.getProperty("java.class.path"),
            Child.class.getName(),
            folder.resolve(name).toString()));
    Process child =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    String out = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(child.waitFor()).isZero();
    return out;
  }

  /** Imports the demo, asks, and shows a light profile and a day. */
  static final class Child {
    private Child() {}

    public static void main(String[] args) {
      Console console = new Console(Path.of(args[0]));
      String ledger = Path.of(args[0], "demo").toString();
      StringBuilder all = new StringBuilder();
      all.append(console.run("demo", "--no-serve", "--json").out());
      all.append(console.run("--ledger", ledger, "spot", "1", "--json").out());
      all.append(console.run("--ledger", ledger, "spot", "1").out());
      all.append(
          console.run("sun", "--lat", "41.93", "--lon", "-6.42", "--day", "2026-03-29").out());
      System.out.writeBytes(all.toString().getBytes(StandardCharsets.UTF_8));
      System.out.flush();
    }
  }
}

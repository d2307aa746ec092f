package org.lightledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.app.Main;
import org.lightledger.store.LedgerCheck;

/** The program itself, asked to end by a signal as Ctrl-C does. */
@Timeout(900)
class CtrlCTest {
  private static final int PHOTOS = 6000;

  /** SIGTERM takes the same way through the program as SIGINT; 128 + 15. */
  private static final int ENDED_BY_SIGNAL = 143;

  @TempDir Path folder;

  private Process start(String... words) throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Main.class.getName(),
                "--ledger",
                folder.resolve("ledger").toString()));
    command.addAll(List.of(words));
    return new ProcessBuilder(command)
        .redirectOutput(folder.resolve("out").toFile())
        .redirectError(folder.resolve("err").toFile())
        .start();
  }

  private String said(String stream) throws IOException {
    return Files.exists(folder.resolve(stream)) ? Files.readString(folder.resolve(stream)) : "";
  }

  private void await(String stream, String words) throws IOException, InterruptedException {
    for (int tries = 0; tries < 2400 && !said(stream).contains(words); tries++) {
      Thread.sleep(25);
    }
    assertThat(said(stream)).contains(words);
  }

  @Test
  void anImportEndsInOrderAndGoesOnWhenItIsStartedAgain() throws IOException, InterruptedException {
    Path photos = folder.resolve("photos");
    for (int i = 0; i < PHOTOS; i++) {
      CliPhotos.write(
          photos,
          String.format(Locale.ROOT, "%05d.jpg", i),
          41.9 + (i % 70) * 1e-3,
          -6.42 - i * 1e-7);
    }
    Process process = start("import", photos.toString(), "--json");
    await("out", "\"added\"");
    process.destroy();

    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(process.exitValue()).isEqualTo(ENDED_BY_SIGNAL);
    assertThat(said("err")).contains("import the same folder again to go on");
    JsonNode stopped = new ObjectMapper().readTree(said("out"));
    assertThat(stopped.get("cancelled").asBoolean()).isTrue();
    int kept = stopped.get("read").asInt();
    assertThat(kept).isPositive().isLessThan(PHOTOS);
    assertThat(stopped.get("files")).hasSize(kept);
    assertThat(LedgerCheck.run(folder.resolve("ledger"))).isEmpty();

    Console.Outcome rest =
        new Console(folder.resolve("ledger")).run("import", photos.toString(), "--json");
    JsonNode report = new ObjectMapper().readTree(rest.out());
    assertThat(report.get("known").asInt()).isEqualTo(kept);
    assertThat(report.get("added").asInt()).isEqualTo(PHOTOS - kept);
  }

  @Test
  void aWatchImportsWhatComesInAndEndsInOrder() throws IOException, InterruptedException {
    Path photos = Files.createDirectory(folder.resolve("photos"));
    CliPhotos.write(photos, "a.jpg", 41.93, -6.42);
    Process process = start("import", photos.toString(), "--watch");
    await("err", "Watching.");

    CliPhotos.write(photos, "b.jpg", 41.94, -6.42);
    await("out", "  b.jpg: ");
    process.destroy();

    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(process.exitValue()).isEqualTo(ENDED_BY_SIGNAL);
    assertThat(LedgerCheck.run(folder.resolve("ledger"))).isEmpty();
  }

  @Test
  void whatCanNotBeWatchedIsNamed() throws IOException {
    Path file = Files.writeString(folder.resolve("a.txt"), "x");
    Console.Outcome outcome =
        new Console(folder.resolve("ledger")).run("import", file.toString(), "--watch");

    assertThat(outcome.exitCode()).isEqualTo(2);
    assertThat(outcome.err()).contains("expected folders that this computer can watch, found");
  }
}

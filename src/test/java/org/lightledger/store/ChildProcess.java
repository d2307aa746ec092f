package org.lightledger.store;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Facing;

/** Another program that writes to a ledger, and what it does. */
final class ChildProcess implements AutoCloseable {
  static final int SPOTS_IN_A_BATCH = 20;

  private final Process process;
  private final BufferedReader answers;
  private final BufferedWriter orders;

  private ChildProcess(Process process) {
    this.process = process;
    this.answers = process.inputReader(StandardCharsets.UTF_8);
    this.orders = process.outputWriter(StandardCharsets.UTF_8);
  }

  static ChildProcess start(String task, Path folder) throws IOException {
    return new ChildProcess(
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                ChildProcess.class.getName(),
                task,
                folder.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start());
  }

  /** Runs in the other program. */
  public static void main(String[] args) throws IOException {
    try (Ledger ledger = Samples.open(Path.of(args[1]))) {
      switch (args[0]) {
        case "write batches" -> writeBatches(ledger);
        case "hold" -> hold(ledger);
        default -> throw new IllegalArgumentException(args[0]);
      }
    }
  }

  /** Writes batch after batch, says the number of each one when it is committed, never ends. */
  private static void writeBatches(Ledger ledger) {
    for (int batch = 0; ; batch++) {
      int number = batch;
      ledger.change(
          session -> {
            for (int spot = 0; spot < SPOTS_IN_A_BATCH; spot++) {
              GeoPoint place = new GeoPoint(40 + spot * 0.01, -6 + number * 0.001);
              long id =
                  session
                      .spots()
                      .insert(
                          Samples.spot(
                              "Batch " + number,
                              place,
                              new Facing(new Bearing(spot), 20, Facing.Origin.OWNER, 0)));
              session
                  .shots()
                  .insert(
                      Samples.shot(place, Instant.EPOCH),
                      Samples.sha256(number * (long) SPOTS_IN_A_BATCH + spot),
                      Samples.sun(95, 12),
                      id);
            }
          });
      say(String.valueOf(number));
    }
  }

  /** Keeps a transaction open until a line comes in. */
  private static void hold(Ledger ledger) {
    ledger.change(
        session -> {
          session.spots().insert(Samples.spot("From the other program", new GeoPoint(1, 2)));
          say("holding");
          try {
            System.in.read();
          } catch (IOException e) {
            throw new UncheckedIOException(e);
          }
        });
    say("done");
  }

  private static void say(String line) {
    System.out.println(line);
    System.out.flush();
  }

  String answer() throws IOException {
    return String.valueOf(answers.readLine());
  }

  void release() throws IOException {
    orders.write("\n");
    orders.flush();
  }

  /** Ends it as kill -9 does. Gives the lines that it had said and nobody had read. */
  List<String> kill() throws InterruptedException {
    // By its handle, because Process.destroyForcibly closes what is still to be read.
    process.toHandle().destroyForcibly();
    process.waitFor();
    return answers.lines().toList();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}

package org.lightledger.app;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import org.lightledger.cli.Lightledger;
import org.lightledger.cli.Services;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.sun.SpaEphemeris;

/** Starts Lightledger: the only place that knows the machine's clock. */
public final class Main {
  private Main() {}

  /**
   * Entry point.
   *
   * @param args the words of the command
   */
  public static void main(String[] args) {
    Services services =
        new Services(
            Clock.systemUTC(),
            new SpaEphemeris(),
            new PlaceZones(),
            Path.of(System.getProperty("user.home"), ".lightledger"));
    System.exit(
        new Lightledger(services).run(utf8(FileDescriptor.out), utf8(FileDescriptor.err), args));
  }

  private static PrintWriter utf8(FileDescriptor stream) {
    return new PrintWriter(new FileOutputStream(stream), true, StandardCharsets.UTF_8);
  }
}

package org.lightledger.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.sun.SpaEphemeris;

/** Runs commands as the program does, with a present of its own. */
final class Console {
  static final Instant NOW = Instant.parse("2026-11-25T12:00:00Z");
  private static final PlaceZones ZONES = new PlaceZones();

  private final Path defaultLedger;

  Console(Path defaultLedger) {
    this.defaultLedger = defaultLedger;
  }

  /** What a command did. */
  record Outcome(int exitCode, String out, String err) {}

  Outcome run(String... args) {
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    Services services =
        new Services(Clock.fixed(NOW, ZoneOffset.UTC), new SpaEphemeris(), ZONES, defaultLedger);
    int exitCode =
        new Lightledger(services).run(new PrintWriter(out, true), new PrintWriter(err, true), args);
    return new Outcome(exitCode, out.toString(), err.toString());
  }
}

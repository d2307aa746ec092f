package org.lightledger.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.light.LightClass;
import org.lightledger.share.ShareSubject;
import org.lightledger.shortlist.Shortlist;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.spot.Facing;

/** Other programs read a ledger as the GeoPackage it is, with data of every kind in it. */
class GeoPackageValidityTest extends LedgerTestBase {
  private static final String VALIDATOR = "osgeo_utils.samples.validate_gpkg";
  private static final int SPOTS = 40;
  private static final int SHOTS = 200;

  @BeforeEach
  void fill() {
    Random random = new Random(11);
    ledger.change(
        session -> {
          long first = 0;
          for (int number = 0; number < SPOTS; number++) {
            first =
                session
                    .spots()
                    .insert(
                        Samples.spot(
                            "Spot " + number,
                            Samples.anyPlace(random),
                            new Facing(new Bearing(number), 20, Facing.Origin.OWNER, 0)));
          }
          long shotId = 0;
          for (int number = 0; number < SHOTS; number++) {
            Shot shot = Samples.anyShot(random);
            shotId =
                session
                    .shots()
                    .insert(shot, Samples.sha256(number), Samples.anySun(random, shot), first);
          }
          session
              .files()
              .record(
                  new StoredFile(
                      Path.of("a.jpg"),
                      0,
                      Instant.EPOCH,
                      null,
                      FileStatus.UNREADABLE,
                      null,
                      List.of(new Problem(Problem.Kind.UNREADABLE, "Found 0 bytes."))));
          MapSamples.add(session, 1);
          session.obstructions().addByOwner(MapSamples.house("Barn", CHAPEL, 8));
          long list = session.shortlists().create("Ana and Luis", "Hello!");
          Shortlist.Moment moment =
              new Shortlist.Moment(
                  Samples.NOW.atOffset(ZoneOffset.UTC),
                  Samples.NOW.atOffset(ZoneOffset.UTC),
                  LightClass.RIM,
                  new Bearing(5));
          session.shortlists().add(list, new Shortlist.Entry(first, moment, shotId, "Words"));
          SessionSamples.share(session, ShareSubject.shortlist(list));
          session.settings().set("name", "value");
        });
  }

  @Test
  void theValidatorFindsNothing() throws Exception {
    String python = require("python3 with " + VALIDATOR, pythonWithValidator());
    assertSilent(run(python, "-m", VALIDATOR, "-k", "--extra", "--warning-as-error", file()));
    ledger.close();
    assertSilent(run(python, "-m", VALIDATOR, "-k", "--extra", "--warning-as-error", file()));
  }

  @Test
  void ogrinfoReadsEveryLayer() throws Exception {
    String ogrinfo = require("ogrinfo", onPath("ogrinfo").findFirst());
    Outcome summary = run(ogrinfo, "-ro", "-so", "-al", file());
    assertThat(summary.errors()).isEmpty();
    assertThat(summary.exit()).isZero();
    assertThat(summary.output())
        .contains(
            "IDENTIFIER=Spots\nGeometry: Point\nFeature Count: " + SPOTS,
            "IDENTIFIER=Scouting shots\nGeometry: Point\nFeature Count: " + SHOTS,
            "IDENTIFIER=Facings\nGeometry: None\nFeature Count: " + SPOTS,
            "IDENTIFIER=Files\nGeometry: None\nFeature Count: 1",
            "IDENTIFIER=Obstructions\nGeometry: Multi Polygon\nFeature Count: 3",
            "IDENTIFIER=Map features\nGeometry: Unknown (any)\nFeature Count: 3",
            "Layer name: maps",
            "Layer name: shortlists",
            "Layer name: shortlist_entries",
            "Layer name: shares",
            "Layer name: settings",
            "GEOGCRS[\"WGS 84\"",
            "sun_azimuth_deg: Real (0.0)",
            "captured_at: String (0.0)");
  }

  @Test
  void aChangeMadeInAnotherProgramIsKeptIndexedAndNoticed() throws Exception {
    String ogrinfo = require("ogrinfo", onPath("ogrinfo").findFirst());
    long before = ledger.stockVersion();
    Outcome change =
        run(
            ogrinfo,
            "-sql",
            "UPDATE spots SET name = 'Renamed', geom ="
                + " x'47500001e61000000101000000000000000000f03f0000000000000040' WHERE id = 1",
            file());
    assertThat(change.errors()).isEmpty();
    assertThat(change.exit()).isZero();
    assertThat(ledger.stockVersion()).isGreaterThan(before);
    Optional<NearSpot> moved =
        ledger.read(session -> session.spotSearch().nearest(new GeoPoint(2, 1), 0));
    assertThat(moved.orElseThrow().spot().name()).isEqualTo("Renamed");
    assertThat(LedgerCheck.run(folder)).isEmpty();
  }

  private String file() {
    return ledger.file().toString();
  }

  /** Where a program is missing the test is skipped, except on the machine that must have it. */
  private static String require(String what, Optional<String> program) {
    if (program.isEmpty() && "true".equals(System.getenv("CI"))) {
      throw new AssertionError("expected " + what + " on the path; install GDAL and its Python");
    }
    Assumptions.assumeTrue(
        program.isPresent(), "skipped: found no " + what + " on the path (GDAL and its Python)");
    return program.orElseThrow();
  }

  private static Optional<String> pythonWithValidator() {
    return onPath("python3")
        .filter(
            python -> {
              try {
                return run(python, "-c", "import osgeo.ogr, " + VALIDATOR).exit() == 0;
              } catch (IOException | InterruptedException e) {
                throw new AssertionError(e);
              }
            })
        .findFirst();
  }

  private static Stream<String> onPath(String program) {
    return Arrays.stream(String.valueOf(System.getenv("PATH")).split(File.pathSeparator))
        .map(directory -> Path.of(directory, program))
        .filter(Files::isExecutable)
        .map(Path::toString);
  }

  private record Outcome(int exit, String output, String errors) {}

  private static void assertSilent(Outcome outcome) {
    assertThat(outcome.errors()).isEmpty();
    assertThat(outcome.output()).isEmpty();
    assertThat(outcome.exit()).isZero();
  }

  private static Outcome run(String... command) throws IOException, InterruptedException {
    Path errors = Files.createTempFile("errors", ".txt");
    try {
      Process process = new ProcessBuilder(command).redirectError(errors.toFile()).start();
      String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      return new Outcome(process.waitFor(), output, Files.readString(errors));
    } finally {
      Files.delete(errors);
    }
  }
}

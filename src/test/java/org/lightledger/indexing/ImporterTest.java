package org.lightledger.indexing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.geo.Geodesy;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.Problem;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.spot.Spot;
import org.lightledger.store.FileStatus;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;

class ImporterTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);
  private static final PlaceZones ZONES = new PlaceZones();

  @TempDir Path folder;
  private Path photos;
  private Ledger ledger;

  @BeforeEach
  void open() {
    photos = folder.resolve("photos");
    ledger = Ledger.open(folder.resolve("ledger"), CLOCK);
  }

  @AfterEach
  void close() {
    ledger.close();
  }

  @Test
  void aShotIsPlacedInTimeAndSpaceAndLinkedToTheSun() {
    write("a.jpg", TestPhotos.shot("2026:05:09 19:30:00", "+02:00", 41.93, -6.42, 250));

    ImportReport report = run();

    FileReport line = report.files().get(0);
    assertThat(line.status()).isEqualTo(FileReport.Status.ADDED);
    assertThat(line.sun()).isNotNull();
    assertThat(line.sun())
        .isEqualTo(
            new SpaEphemeris()
                .direction(Instant.parse("2026-05-09T17:30:00Z"), new GeoPoint(41.93, -6.42)));
    Spot spot = spots().get(0);
    assertThat(spot.id()).isEqualTo(line.spotId());
    assertThat(spot.zone()).isEqualTo(ZoneId.of("Europe/Madrid"));
    assertThat(spot.name()).isEqualTo("Spot " + spot.id());
    assertThat(spot.facings()).hasSize(1);
    assertThat(spot.facings().get(0).bearing().trueDeg()).isCloseTo(250, within(1e-9));
  }

  @Test
  void importingTwiceAddsNothing() {
    TestPhotos.fill(photos, 40);
    ImportReport first = run();
    List<Spot> before = spots();

    ImportReport second = run();

    assertThat(first.count(FileReport.Status.ADDED)).isEqualTo(40);
    assertThat(second.count(FileReport.Status.ADDED)).isZero();
    assertThat(second.count(FileReport.Status.KNOWN)).isEqualTo(40);
    assertThat(second.spotsMade()).isZero();
    assertThat(spots()).isEqualTo(before);
  }

  @Test
  void aCopyUnderAnotherNameIsTheSameShot() {
    byte[] shot = TestPhotos.shot("2026:05:09 19:30:00", "+02:00", 41.93, -6.42, 250);
    write("a.jpg", shot);
    write("b/copy of a.jpg", shot);

    ImportReport report = run();

    assertThat(report.count(FileReport.Status.ADDED)).isEqualTo(1);
    assertThat(report.count(FileReport.Status.KNOWN)).isEqualTo(1);
    assertThat(report.files().get(0).shotId()).isEqualTo(report.files().get(1).shotId());
    assertThat(ledger.<Integer>read(session -> session.files().all().size())).isEqualTo(2);
  }

  @Test
  void aBadFileIsALineAndDoesNotStopTheRest() {
    write("a.jpg", "this is no picture".getBytes(StandardCharsets.UTF_8));
    write("b.jpg", TestPhotos.shot("2026:05:09 19:30:00", "+02:00", 41.93, -6.42, 250));
    write("c.jpg", new byte[0]);
    write("notes.txt", "bring the ladder".getBytes(StandardCharsets.UTF_8));

    ImportReport report = run(photos, photos.resolve("missing"));

    assertThat(report.count(FileReport.Status.ADDED)).isEqualTo(1);
    assertThat(report.count(FileReport.Status.UNREADABLE)).isEqualTo(3);
    assertThat(report.otherFiles()).isEqualTo(1);
    assertThat(report.files())
        .filteredOn(file -> file.status() == FileReport.Status.UNREADABLE)
        .allSatisfy(
            file -> {
              assertThat(file.problems()).hasSize(1);
              assertThat(file.problems().get(0).kind()).isEqualTo(Problem.Kind.UNREADABLE);
              assertThat(file.problems().get(0).message()).isNotBlank();
            });
    assertThat(
            ledger.<Integer>read(
                session -> session.files().withStatus(FileStatus.UNREADABLE).size()))
        .isEqualTo(2);
  }

  @Test
  void nearShotsJoinOneSpotAndFarOnesMakeAnother() {
    GeoPoint here = new GeoPoint(41.93, -6.42);
    write("a.jpg", TestPhotos.shot("2026:05:09 19:30:00", "+02:00", 41.93, -6.42, 250));
    write("b.jpg", at(Geodesy.destination(here, new Bearing(90), 20)));
    write("c.jpg", at(Geodesy.destination(here, new Bearing(270), 60)));

    run();

    assertThat(spots()).hasSize(2);
    assertThat(Geodesy.distanceM(spots().get(0).position(), here)).isCloseTo(10, within(0.05));
  }

  @Test
  void theDistanceToJoinIsTheOwnersToChange() {
    GeoPoint here = new GeoPoint(41.93, -6.42);
    write("a.jpg", at(here));
    write("b.jpg", at(Geodesy.destination(here, new Bearing(90), 20)));

    importer()
        .run(List.of(photos), new ImportOptions(OwnerWord.NOTHING, 1, 10), ImportProgress.NONE);

    assertThat(spots()).hasSize(2);
    assertThatThrownBy(() -> new ImportOptions(OwnerWord.NOTHING, 1, Double.NaN))
        .hasMessageContaining("NaN");
  }

  @Test
  void theNumberOfThreadsDoesNotChangeTheLedger() {
    TestPhotos.fill(photos, 200);
    run();
    List<Spot> spots = spots();
    try (Ledger other = Ledger.open(folder.resolve("other"), CLOCK)) {
      new Importer(other, ZONES, new SpaEphemeris())
          .run(List.of(photos), new ImportOptions(OwnerWord.NOTHING, 1, 25), ImportProgress.NONE);
      assertThat(other.<List<Spot>>read(session -> session.spots().all())).isEqualTo(spots);
    }
  }

  @Test
  void aStoppedImportGoesOnWhereItStopped() {
    TestPhotos.fill(photos, 600);
    List<FileReport> done = new ArrayList<>();
    ImportReport stopped =
        importer()
            .run(
                List.of(photos),
                new ImportOptions(OwnerWord.NOTHING, 2, 25),
                new ImportProgress() {
                  @Override
                  public void started(int files) {
                    assertThat(files).isEqualTo(600);
                  }

                  @Override
                  public void done(FileReport file) {
                    done.add(file);
                  }

                  @Override
                  public boolean cancelled() {
                    return done.size() >= 100;
                  }
                });
    assertThat(stopped.cancelled()).isTrue();
    assertThat(stopped.files()).hasSize(done.size()).hasSizeLessThan(600);

    ImportReport rest = run();

    assertThat(rest.count(FileReport.Status.KNOWN)).isEqualTo(done.size());
    assertThat(rest.count(FileReport.Status.ADDED)).isEqualTo(600 - done.size());
  }

  @Test
  void aFolderThatCanNotBeListedIsALine() throws IOException {
    Path loop = photos.resolve("loop");
    Files.createDirectories(photos);
    Files.createSymbolicLink(loop, photos);
    write("a.jpg", at(new GeoPoint(41.93, -6.42)));

    assertThat(run().count(FileReport.Status.ADDED)).isEqualTo(1);
  }

  private static byte[] at(GeoPoint point) {
    return TestPhotos.shot(
        "2026:05:10 19:30:00", "+02:00", point.latitudeDeg(), point.longitudeDeg(), 250);
  }

  private void write(String name, byte[] content) {
    TestPhotos.write(photos.resolve(name), content);
  }

  private Importer importer() {
    return new Importer(ledger, ZONES, new SpaEphemeris());
  }

  private ImportReport run(Path... roots) {
    return importer()
        .run(
            roots.length == 0 ? List.of(photos) : List.of(roots),
            ImportOptions.standard(),
            ImportProgress.NONE);
  }

  private List<Spot> spots() {
    return ledger.read(session -> session.spots().all());
  }
}

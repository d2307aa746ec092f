package org.lightledger.indexing;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.CaptureTime;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredShot;
import org.lightledger.sun.SpaEphemeris;

/** Several files of one shot: pairs, bursts, sidecars; and files too large to hold in memory. */
class ShotFilesTest {
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);
  private static final PlaceZones ZONES = new PlaceZones();
  private static final int SUB_SEC_TIME_ORIGINAL = 0x9291;
  private static final int DNG_VERSION = 0xC612;

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

  private static ExifBuilder shotAt(String time, String subSeconds) {
    return ExifBuilder.bigEndian()
        .ascii(Directory.IFD0, 0x010F, "Maker")
        .ascii(Directory.IFD0, 0x0110, "X-1")
        .ascii(Directory.EXIF, 0x9003, time)
        .ascii(Directory.EXIF, SUB_SEC_TIME_ORIGINAL, subSeconds)
        .ascii(Directory.EXIF, 0x9011, "+02:00")
        .rationals(Directory.EXIF, 0x829A, 1, 250)
        .rationals(Directory.EXIF, 0x829D, 28, 10)
        .shorts(Directory.EXIF, 0x8827, 100);
  }

  private static ExifBuilder placed(ExifBuilder builder) {
    return builder
        .position("N", new long[] {41, 1, 55, 1, 48, 1}, "W", new long[] {6, 1, 25, 1, 12, 1})
        .ascii(Directory.GPS, 16, "T")
        .rationals(Directory.GPS, 17, 250, 1);
  }

  private static byte[] raw(ExifBuilder builder) {
    return builder.bytes(Directory.IFD0, DNG_VERSION, 1, 4, 0, 0).tiff();
  }

  private void write(String name, byte[] content) {
    TestPhotos.write(photos.resolve(name), content);
  }

  private ImportReport run() {
    return new Importer(ledger, ZONES, new SpaEphemeris())
        .run(List.of(photos), new ImportOptions(OwnerWord.NOTHING, 2, 25), ImportProgress.NONE);
  }

  private List<StoredShot> shots() {
    return ledger.read(
        session ->
            session.files().all().stream()
                .map(file -> file.shotId())
                .distinct()
                .map(id -> session.shots().find(id).orElseThrow())
                .toList());
  }

  @Test
  void aRawFileAndItsJpegAreOneShotThatKnowsWhatBothSay() {
    write("IMG_1.DNG", raw(shotAt("2026:05:09 19:30:00", "25")));
    write("IMG_1.JPG", placed(shotAt("2026:05:09 19:30:00", "25")).jpeg());

    ImportReport report = run();

    assertThat(report.count(FileReport.Status.JOINED)).isEqualTo(1);
    assertThat(shots()).hasSize(1);
    StoredShot stored = shots().get(0);
    assertThat(stored.files())
        .containsExactly(photos.resolve("IMG_1.DNG"), photos.resolve("IMG_1.JPG"));
    Shot shot = stored.shot();
    assertThat(shot.evidence().format()).isEqualTo("DNG");
    assertThat(shot.position()).isNotNull();
    assertThat(shot.position().point().toText()).isEqualTo(new GeoPoint(41.93, -6.42).toText());
    assertThat(shot.facing()).isNotNull();
    assertThat(stored.sun()).isNotNull();
    assertThat(shot.needsAttention()).isFalse();
    assertThat(ledger.<Integer>read(session -> session.spots().all().size())).isEqualTo(1);
    assertThat(ledger.<Integer>read(s -> s.spots().all().get(0).facings().size())).isEqualTo(1);
  }

  /** The correction waits for a zone; the file that brings the place does not undo it. */
  @Test
  void aSecondFileLeavesTheCorrectionOfTheClockAsItIs() {
    Duration slow = Duration.ofHours(-1);
    write("IMG_1.DNG", raw(withoutOffset()));
    run();
    StoredShot waiting = shots().get(0);
    Shot told =
        new ShotRules(ZONES)
            .concludeWith(
                new OwnerWord(null, new ClockCorrection(slow), null), waiting.shot().evidence());
    ledger.change(session -> session.shots().update(waiting.id(), told, null));

    write("IMG_1.JPG", placed(withoutOffset()).jpeg());
    run();

    Shot shot = ledger.read(session -> session.shots().find(waiting.id()).orElseThrow()).shot();
    assertThat(shot.clockCorrection().toAdd()).isEqualTo(slow);
    assertThat(shot.time())
        .isInstanceOfSatisfying(
            CaptureTime.Known.class,
            known -> assertThat(known.instant()).isEqualTo("2026-05-09T16:30:00Z"));
  }

  private static ExifBuilder withoutOffset() {
    return ExifBuilder.bigEndian()
        .ascii(Directory.IFD0, 0x010F, "Maker")
        .ascii(Directory.IFD0, 0x0110, "X-1")
        .ascii(Directory.EXIF, 0x9003, "2026:05:09 19:30:00");
  }

  @Test
  void bothFilesOfAPairAreKnownAgainAndUnderOtherNames() {
    write("IMG_1.DNG", raw(placed(shotAt("2026:05:09 19:30:00", "25"))));
    write("IMG_1.JPG", placed(shotAt("2026:05:09 19:30:00", "25")).jpeg());
    run();
    write("copy/of the jpeg.jpg", placed(shotAt("2026:05:09 19:30:00", "25")).jpeg());

    ImportReport again = run();

    assertThat(again.count(FileReport.Status.KNOWN)).isEqualTo(3);
    assertThat(shots()).hasSize(1);
    assertThat(shots().get(0).files()).hasSize(3);
  }

  @Test
  void filesThatOnlyShareTheirNameAreTwoShots() {
    write("IMG_1.DNG", raw(placed(shotAt("2026:05:09 19:30:00", "25"))));
    write("IMG_1.JPG", placed(shotAt("2026:05:09 19:30:02", "25")).jpeg());
    write("a/IMG_1.JPG", placed(shotAt("2026:05:09 19:30:00", "26")).jpeg());
    write("IMG_11.JPG", placed(shotAt("2026:05:09 19:30:00", "27")).jpeg());

    run();

    assertThat(shots()).hasSize(4);
  }

  @Test
  void aBurstIsOneShotAndNothingElseIs() {
    write("1.JPG", placed(shotAt("2026:05:09 19:30:00", "10")).jpeg());
    write("2.JPG", placed(shotAt("2026:05:09 19:30:00", "30")).jpeg());
    write("3.JPG", placed(shotAt("2026:05:09 19:30:01", "10")).jpeg());
    write("4.JPG", placed(shotAt("2026:05:09 19:30:01", "11")).jpeg());
    write(
        "5.JPG",
        placed(shotAt("2026:05:09 19:30:01", "30").shorts(Directory.IFD0, 0x0112, 6)).jpeg());
    write("6.JPG", shotAt("2026:05:09 19:30:01", "50").jpeg());

    run();

    assertThat(shots().stream().map(shot -> shot.files().size()).toList())
        .as("three within a second of the first; one later; one turned; one without a place")
        .containsExactly(3, 1, 1, 1);
    assertThat(run().count(FileReport.Status.KNOWN)).isEqualTo(6);
  }

  @Test
  void aBurstOfPairsIsOneShot() {
    for (int i = 0; i < 3; i++) {
      write(i + ".DNG", raw(placed(shotAt("2026:05:09 19:30:00", "1" + i))));
      write(i + ".JPG", placed(shotAt("2026:05:09 19:30:00", "1" + i)).jpeg());
    }

    run();

    assertThat(shots()).hasSize(1);
    assertThat(shots().get(0).files()).hasSize(6);
  }

  @Test
  void filesWithoutTimeOrCameraAreNeverJoined() {
    write("1.JPG", ExifBuilder.bigEndian().ascii(Directory.IFD0, 0x010F, "Maker").jpeg());
    write("1.DNG", raw(ExifBuilder.bigEndian().ascii(Directory.IFD0, 0x010F, "Maker")));
    String time = "2026:05:09 19:30:00";
    write("2.JPG", ExifBuilder.bigEndian().ascii(Directory.EXIF, 0x9003, time).jpeg());
    write("2.DNG", raw(ExifBuilder.bigEndian().ascii(Directory.EXIF, 0x9003, time)));

    run();

    assertThat(shots()).hasSize(4);
  }

  @Test
  void aSidecarPlacesItsImage() {
    String packet =
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"
            + "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
            + "<rdf:Description rdf:about=\"\" xmlns:exif=\"http://ns.adobe.com/exif/1.0/\""
            + " exif:GPSLatitude=\"%sN\" exif:GPSLongitude=\"6,25.2W\"/></rdf:RDF></x:xmpmeta>";
    write("a.DNG", raw(shotAt("2026:05:09 19:30:00", "25")));
    write("a.xmp", packet.replace("%s", "41,55.8").getBytes(UTF_8));
    write("b.DNG", raw(shotAt("2026:05:09 20:30:00", "25")));
    write("b.DNG.xmp", packet.replace("%s", "42,55.8").getBytes(UTF_8));
    write("b.xmp", packet.replace("%s", "43,55.8").getBytes(UTF_8));

    ImportReport report = run();

    assertThat(report.count(FileReport.Status.ADDED)).isEqualTo(2);
    assertThat(report.otherFiles()).as("sidecars are no images").isEqualTo(3);
    assertThat(shots().stream().map(shot -> shot.shot().evidence().position()).toList())
        .containsExactly(new GeoPoint(41.93, -6.42), new GeoPoint(42.93, -6.42));
  }

  private static FileReading reading() {
    return new FileReading(
        new ShotRules(ZONES), new SpaEphemeris(), new ImportOptions(OwnerWord.NOTHING, 1, 25));
  }

  private FileWalk.Met listed(String name) {
    return (FileWalk.Met) FileWalk.below(List.of(photos.resolve(name))).next();
  }

  /** A card that is still being copied while an import goes on. */
  @Test
  void aFileThatChangedSinceItWasListedIsReadAsItIs() throws IOException {
    byte[] whole = placed(shotAt("2026:05:09 19:30:00", "25")).jpeg();
    byte[] longer = Arrays.copyOf(whole, whole.length + 9);
    for (byte[] before : List.of(Arrays.copyOf(whole, 40), longer)) {
      write("a.jpg", before);
      FileWalk.Met met = listed("a.jpg");
      write("a.jpg", whole);

      FileReading.Result result = reading().read(met, sha256 -> false);

      assertThat(result)
          .isInstanceOf(FileReading.NewShot.class)
          .isEqualTo(reading().read(met.file(), sha256 -> false));
      assertThat(result.source().sizeBytes()).isEqualTo(whole.length);
    }
  }

  @Test
  void aFileThatVanishedSinceItWasListedIsALine() throws IOException {
    write("a.jpg", placed(shotAt("2026:05:09 19:30:00", "25")).jpeg());
    FileWalk.Met met = listed("a.jpg");
    Files.delete(met.file());

    assertThat(reading().read(met, sha256 -> false))
        .isInstanceOfSatisfying(
            FileReading.Failed.class,
            failed -> assertThat(failed.problem().message()).contains("can not be opened"));
  }

  /** More than an array can hold lies behind the metadata, so it can not have been loaded. */
  @Test
  void aFileOfTwoGigabytesIsReadInPieces() throws IOException {
    byte[] start = raw(placed(shotAt("2026:05:09 19:30:00", "25")));
    write("large.DNG", start);
    try (FileChannel channel =
        FileChannel.open(photos.resolve("large.DNG"), StandardOpenOption.WRITE)) {
      channel.write(ByteBuffer.wrap(new byte[1]), FileReading.LARGEST_BYTES - 1);
    }

    FileReading.Result result = reading().read(photos.resolve("large.DNG"), sha256 -> false);

    assertThat(result).isInstanceOf(FileReading.NewShot.class);
    assertThat(((FileReading.NewShot) result).shot().time()).isInstanceOf(CaptureTime.Known.class);
  }

  @Test
  void aFileThatChangesWhileItIsReadIsALine() {
    write("a.jpg", placed(shotAt("2026:05:09 19:30:00", "25")).jpeg());
    Path path = photos.resolve("a.jpg");
    FileReading.Result result =
        reading()
            .read(
                path,
                sha256 -> {
                  try {
                    Files.write(path, new byte[1], StandardOpenOption.APPEND);
                  } catch (IOException e) {
                    throw new AssertionError(e);
                  }
                  return false;
                });

    assertThat(result)
        .isInstanceOfSatisfying(
            FileReading.Failed.class,
            failed ->
                assertThat(failed.problem())
                    .isEqualTo(
                        new Problem(
                            Problem.Kind.UNREADABLE,
                            "This file changed while it was read; import it again when it is"
                                + " complete.")));
  }
}

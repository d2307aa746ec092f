package org.lightledger.bench;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;

/** What an import costs beside the metadata reader alone, on one thread, for the same files. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.SingleShotTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 4)
@Measurement(iterations = 6)
public class ImportBench {
  /** The folder whose JPEG files are copied; a folder of real photos may be named instead. */
  @Param("sample-photos")
  public String source;

  /** How many files; each is a photo with a tail of its own, so that all differ. */
  @Param("4000")
  public int files;

  private final PlaceZones zones = new PlaceZones();
  private final List<Path> photos = new ArrayList<>();
  private Path folder;
  private Path ledgerFolder;
  private Ledger ledger;

  /** Writes the files. */
  @Setup
  public void write() throws IOException {
    folder = Files.createTempDirectory("import-bench");
    List<Path> samples;
    try (Stream<Path> walk = Files.walk(Path.of(source))) {
      samples = walk.filter(path -> path.toString().endsWith(".jpg")).sorted().toList();
    }
    for (int i = 0; i < files; i++) {
      byte[] content = Files.readAllBytes(samples.get(i % samples.size()));
      ByteBuffer tailed = ByteBuffer.allocate(content.length + 4).put(content).putInt(i);
      photos.add(Files.write(folder.resolve("photo" + i + ".jpg"), tailed.array()));
    }
  }

  /** Gives each run an empty ledger. */
  @Setup(Level.Invocation)
  public void openLedger() throws IOException {
    ledgerFolder = Files.createTempDirectory("import-bench-ledger");
    ledger =
        Ledger.open(
            ledgerFolder, Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC));
  }

  /** Removes the run's ledger. */
  @TearDown(Level.Invocation)
  public void removeLedger() throws IOException {
    ledger.close();
    remove(ledgerFolder);
  }

  /** Removes the files. */
  @TearDown
  public void remove() throws IOException {
    remove(folder);
  }

  private static void remove(Path tree) throws IOException {
    try (Stream<Path> walk = Files.walk(tree)) {
      for (Path path : walk.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }

  /** The metadata reader alone: each file loaded and parsed by the library, nothing kept. */
  @Benchmark
  public void metadataReaderAlone(Blackhole blackhole) throws IOException {
    for (Path photo : photos) {
      try {
        blackhole.consume(
            ImageMetadataReader.readMetadata(new ByteArrayInputStream(Files.readAllBytes(photo))));
      } catch (ImageProcessingException e) {
        blackhole.consume(e);
      }
    }
  }

  /** Hashing alone, which the comparison leaves out: subtract it from the import. */
  @Benchmark
  public void hashingAlone(Blackhole blackhole) throws IOException, NoSuchAlgorithmException {
    for (Path photo : photos) {
      byte[] content = Files.readAllBytes(photo);
      blackhole.consume(MessageDigest.getInstance("SHA-256").digest(content));
    }
  }

  /** Loading alone, to be added back to the hashing. */
  @Benchmark
  public void loadingAlone(Blackhole blackhole) throws IOException {
    for (Path photo : photos) {
      blackhole.consume(Files.readAllBytes(photo));
    }
  }

  /** The whole import on one thread. */
  @Benchmark
  public ImportReport importOnOneThread() {
    return new Importer(ledger, zones, new SpaEphemeris())
        .run(
            List.of(folder),
            new ImportOptions(OwnerWord.NOTHING, 1, ImportOptions.STANDARD_JOIN_DISTANCE_M),
            ImportProgress.NONE);
  }
}

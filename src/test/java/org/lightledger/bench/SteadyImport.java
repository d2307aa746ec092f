package org.lightledger.bench;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import java.io.ByteArrayInputStream;
import java.io.EOFException;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;

/**
 * What an import costs on one thread beside the metadata reader alone, in that thread's time of the
 * processor, so that neither other work on the machine nor the compiler disturbs much. The parts
 * are measured in turn, round after round in one process. Told are the least, which other work on
 * the machine can only raise, and the range of the later rounds. Run the main method with the test
 * class path; its arguments are the folder of photos to copy (sample-photos), the number of files
 * (4000) and the number of rounds (12).
 */
public final class SteadyImport {
  private static final int FOLDER_SIZE = 1000;

  private final List<Path> photos = new ArrayList<>();
  private final PlaceZones zones = new PlaceZones();
  private final Path work;

  private SteadyImport(Path work) {
    this.work = work;
  }

  private interface Part {
    void run() throws IOException, NoSuchAlgorithmException;
  }

  /** The parts that are compared, in the order of measuring. */
  private enum Kind {
    /** The library opens the file itself and reads no more of it than it needs. */
    READER("metadata reader alone"),
    /** The library is given the whole file, as the import reads it for its fingerprint. */
    READER_AND_LOADING("metadata reader, file loaded"),
    LOADING("loading alone"),
    HASHING("loading and hashing alone"),
    IMPORT("import");

    private final String label;

    Kind(String label) {
      this.label = label;
    }
  }

  /** Runs the comparison and prints a line for each part. */
  public static void main(String[] args) throws IOException, NoSuchAlgorithmException {
    Path source = Path.of(args.length > 0 ? args[0] : "sample-photos");
    int files = args.length > 1 ? Integer.parseInt(args[1]) : 4000;
    int rounds = args.length > 2 ? Integer.parseInt(args[2]) : 12;
    Path work = Files.createTempDirectory("steady-import");
    try {
      new SteadyImport(work).compare(source, files, rounds);
    } finally {
      remove(work);
    }
  }

  private void compare(Path source, int files, int rounds)
      throws IOException, NoSuchAlgorithmException {
    write(source, files);
    double[][] perFileMicros = new double[Kind.values().length][rounds];
    for (int round = 0; round < rounds; round++) {
      for (Kind kind : Kind.values()) {
        perFileMicros[kind.ordinal()][round] = micros(kind) / files;
      }
    }
    double[] least = new double[Kind.values().length];
    for (Kind kind : Kind.values()) {
      double[] later =
          Arrays.stream(perFileMicros[kind.ordinal()]).skip(rounds / 2).sorted().toArray();
      least[kind.ordinal()] = later[0];
      System.out.printf(
          Locale.ROOT,
          "%-28s %8.1f µs a file (to %.1f, half below %.1f)%n",
          kind.label,
          later[0],
          later[later.length - 1],
          later[later.length / 2]);
    }
    double hashing = least[Kind.HASHING.ordinal()] - least[Kind.LOADING.ordinal()];
    double withoutHashing = least[Kind.IMPORT.ordinal()] - hashing;
    System.out.printf(
        Locale.ROOT,
        "%s: import without hashing %.1f µs a file, %.2f times the metadata reader, %.2f times the"
            + " metadata reader with the whole file loaded%n",
        source,
        withoutHashing,
        withoutHashing / least[Kind.READER.ordinal()],
        withoutHashing / least[Kind.READER_AND_LOADING.ordinal()]);
  }

  /** Writes copies of the photos, each with a tail of its own, so that all differ. */
  private void write(Path source, int files) throws IOException {
    List<byte[]> samples = new ArrayList<>();
    try (Stream<Path> walk = Files.walk(source)) {
      for (Path path : walk.filter(p -> p.toString().endsWith(".jpg")).sorted().toList()) {
        samples.add(Files.readAllBytes(path));
      }
    }
    for (int i = 0; i < files; i++) {
      byte[] content = samples.get(i % samples.size());
      Path folder =
          Files.createDirectories(
              work.resolve(String.format(Locale.ROOT, "photos/card%03d", i / FOLDER_SIZE)));
      byte[] tailed = ByteBuffer.allocate(content.length + 4).put(content).putInt(i).array();
      Path photo = folder.resolve(String.format(Locale.ROOT, "photo%06d.jpg", i));
      photos.add(Files.write(photo, tailed));
    }
  }

  private double micros(Kind kind) throws IOException, NoSuchAlgorithmException {
    return switch (kind) {
      case READER -> microsOfProcessor(this::readAll);
      case READER_AND_LOADING -> microsOfProcessor(this::loadAndReadAll);
      case LOADING -> microsOfProcessor(this::loadAll);
      case HASHING -> microsOfProcessor(this::hashAll);
      case IMPORT -> importIntoNewLedger();
    };
  }

  /** A damaged photo ends its own reading only. */
  private void readAll() throws IOException {
    for (Path photo : photos) {
      try {
        ImageMetadataReader.readMetadata(photo.toFile());
      } catch (ImageProcessingException | EOFException e) {
        continue;
      }
    }
  }

  private void loadAndReadAll() throws IOException {
    for (Path photo : photos) {
      try {
        ImageMetadataReader.readMetadata(new ByteArrayInputStream(Files.readAllBytes(photo)));
      } catch (ImageProcessingException | EOFException e) {
        continue;
      }
    }
  }

  private void loadAll() throws IOException {
    for (Path photo : photos) {
      Files.readAllBytes(photo);
    }
  }

  private void hashAll() throws IOException, NoSuchAlgorithmException {
    for (Path photo : photos) {
      MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(photo));
    }
  }

  /** The ledger is made before the clock starts. */
  private double importIntoNewLedger() throws IOException, NoSuchAlgorithmException {
    Path folder = Files.createDirectories(work.resolve("ledger"));
    Clock clock = Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);
    try (Ledger ledger = Ledger.open(folder, clock)) {
      Importer importer = new Importer(ledger, zones, new SpaEphemeris());
      ImportOptions options =
          new ImportOptions(OwnerWord.NOTHING, 1, ImportOptions.STANDARD_JOIN_DISTANCE_M);
      return microsOfProcessor(
          () -> importer.run(List.of(work.resolve("photos")), options, ImportProgress.NONE));
    } finally {
      remove(folder);
    }
  }

  private static void remove(Path tree) throws IOException {
    try (Stream<Path> walk = Files.walk(tree)) {
      for (Path path : walk.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }

  private static double microsOfProcessor(Part part) throws IOException, NoSuchAlgorithmException {
    System.gc();
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long before = threads.getCurrentThreadCpuTime();
    part.run();
    return (threads.getCurrentThreadCpuTime() - before) / 1e3;
  }
}

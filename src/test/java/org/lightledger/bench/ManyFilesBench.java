package org.lightledger.bench;

import com.drew.imaging.ImageMetadataReader;
import com.drew.imaging.ImageProcessingException;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;
import org.lightledger.shot.zone.PlaceZones;
import org.lightledger.store.Ledger;
import org.lightledger.sun.SpaEphemeris;

/**
 * Imports very many files in little memory, next to the metadata reader alone and to exiftool on
 * the same files. Run the main method with the test class path and {@code -Xmx256m}; its arguments
 * are the number of files (100000) and a folder to work in.
 */
public final class ManyFilesBench {
  private static final int FOLDER_SIZE = 1000;
  private static final int PLACES = 3000;

  /** It takes milliseconds for each. */
  private static final int MOST_FOR_EXIFTOOL = 20_000;

  private static final DateTimeFormatter EXIF_TIME =
      DateTimeFormatter.ofPattern("uuuu:MM:dd HH:mm:ss", Locale.ROOT);

  private ManyFilesBench() {}

  /** Runs the comparison and prints a line for each part. */
  public static void main(String[] args)
      throws IOException, InterruptedException, ExecutionException {
    int files = args.length > 0 ? Integer.parseInt(args[0]) : 100_000;
    Path work =
        args.length > 1
            ? Files.createDirectories(Path.of(args[1]))
            : Files.createTempDirectory("many-files");
    int threads = Runtime.getRuntime().availableProcessors();
    try {
      Path photos = work.resolve("photos");
      say("write", files, time(() -> write(photos, files)));
      Path ledger = work.resolve("ledger");
      say("import, 1 thread", files, time(() -> run(ledger, photos, 1)));
      memory();
      say("import again", files, time(() -> run(ledger, photos, 1)));
      Path other = work.resolve("other");
      say("import, " + threads + " threads", files, time(() -> run(other, photos, threads)));
      memory();
      say("fingerprints alone, 1 thread", files, time(() -> hash(photos, files)));
      say("metadata reader alone, 1 thread", files, time(() -> read(photos, files, 1)));
      say(
          "metadata reader alone, " + threads + " threads",
          files,
          time(() -> read(photos, files, threads)));
      exiftool(photos, files);
    } finally {
      try (Stream<Path> walk = Files.walk(work)) {
        for (Path path : walk.sorted(Collections.reverseOrder()).toList()) {
          Files.delete(path);
        }
      }
    }
  }

  private interface Part {
    void run() throws IOException, InterruptedException, ExecutionException;
  }

  /** What a part took: on the wall's clock, and of all processors, its child processes included. */
  private record Cost(double wallS, double processorS) {}

  private static Cost time(Part part) throws IOException, InterruptedException, ExecutionException {
    double before = processorS();
    long start = System.nanoTime();
    part.run();
    return new Cost((System.nanoTime() - start) / 1e9, processorS() - before);
  }

  private static double processorS() throws IOException {
    double ownS =
        ManagementFactory.getPlatformMXBean(com.sun.management.OperatingSystemMXBean.class)
                .getProcessCpuTime()
            / 1e9;
    Path stat = Path.of("/proc/self/stat");
    if (!Files.isReadable(stat)) {
      return ownS;
    }
    // Fields 16 and 17: user and system time of children waited for, hundredths (proc(5)).
    String text = Files.readString(stat);
    String[] fields = text.substring(text.lastIndexOf(')') + 2).split(" ", -1);
    return ownS + (Long.parseLong(fields[13]) + Long.parseLong(fields[14])) / 100.0;
  }

  private static void say(String part, int files, Cost cost) {
    System.out.printf(
        Locale.ROOT,
        "%-34s %8.1f s %9.0f files a second; %8.1f s of processor, %.0f µs a file%n",
        part,
        cost.wallS(),
        files / cost.wallS(),
        cost.processorS(),
        cost.processorS() * 1e6 / files);
  }

  private static Path file(Path photos, int number) {
    return photos
        .resolve(String.format(Locale.ROOT, "card%03d", number / FOLDER_SIZE))
        .resolve(String.format(Locale.ROOT, "shot%06d.jpg", number));
  }

  private static void write(Path photos, int files) throws IOException {
    byte[] picture = picture();
    Random random = new Random(100_000);
    LocalDateTime time = LocalDateTime.of(2020, 1, 1, 8, 0);
    for (int i = 0; i < files; i++) {
      int place = random.nextInt(PLACES);
      byte[] head =
          head(
              time.plusSeconds(37L * i),
              41.0 + 0.003 * (place % 60) + 0.00004 * random.nextDouble(),
              6.0 + 0.003 * (place / 60) + 0.00004 * random.nextDouble(),
              random.nextInt(360));
      Path file = file(photos, i);
      Files.createDirectories(file.getParent());
      byte[] content = Arrays.copyOf(head, head.length + picture.length);
      System.arraycopy(picture, 0, content, head.length, picture.length);
      Files.write(file, content);
    }
  }

  /** A start of image and its Exif segment. */
  private static byte[] head(LocalDateTime time, double north, double west, int facingDeg) {
    byte[] whole =
        ExifBuilder.bigEndian()
            .ascii(Directory.IFD0, 0x010F, "Maker")
            .ascii(Directory.IFD0, 0x0110, "Model 5")
            .ascii(Directory.EXIF, 0x9003, EXIF_TIME.format(time))
            .ascii(Directory.EXIF, 0x9011, "+01:00")
            .rationals(Directory.EXIF, 0x829A, 1, 250)
            .rationals(Directory.EXIF, 0x829D, 28, 10)
            .shorts(Directory.EXIF, 0x8827, 100)
            .position("N", degrees(north), "W", degrees(west))
            .ascii(Directory.GPS, 16, "T")
            .rationals(Directory.GPS, 17, facingDeg, 1)
            .jpeg();
    int segmentLength = ((whole[4] & 0xff) << 8) + (whole[5] & 0xff);
    return Arrays.copyOf(whole, 4 + segmentLength);
  }

  private static long[] degrees(double angleDeg) {
    return new long[] {Math.round(angleDeg * 1e7), 10_000_000, 0, 1, 0, 1};
  }

  /** A JPEG file as the Java platform writes it, without its start of image. */
  private static byte[] picture() throws IOException {
    BufferedImage image = new BufferedImage(320, 240, BufferedImage.TYPE_INT_RGB);
    Random random = new Random(1);
    for (int y = 0; y < image.getHeight(); y++) {
      for (int x = 0; x < image.getWidth(); x++) {
        image.setRGB(x, y, (x * 0x10101) ^ random.nextInt(0x202020));
      }
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ImageIO.write(image, "jpg", out);
    byte[] whole = out.toByteArray();
    return Arrays.copyOfRange(whole, 2, whole.length);
  }

  private static void run(Path ledgerFolder, Path photos, int threads) {
    Clock clock = Clock.fixed(Instant.parse("2026-11-25T12:00:00Z"), ZoneOffset.UTC);
    try (Ledger ledger = Ledger.open(ledgerFolder, clock)) {
      ImportReport report =
          new Importer(ledger, new PlaceZones(), new SpaEphemeris())
              .run(
                  List.of(photos),
                  new ImportOptions(
                      OwnerWord.NOTHING, threads, ImportOptions.STANDARD_JOIN_DISTANCE_M),
                  ImportProgress.NONE);
      System.out.printf(
          Locale.ROOT,
          "  %d added, %d known, %d spots made%n",
          report.count(FileReport.Status.ADDED),
          report.count(FileReport.Status.KNOWN),
          report.spotsMade());
    }
  }

  private static void read(Path photos, int files, int threads)
      throws InterruptedException, ExecutionException {
    ExecutorService readers = Executors.newFixedThreadPool(threads);
    List<Callable<Integer>> shares =
        IntStream.range(0, threads)
            .mapToObj(
                share ->
                    (Callable<Integer>)
                        () ->
                            IntStream.range(0, files)
                                .filter(i -> i % threads == share)
                                .map(i -> tags(file(photos, i)))
                                .sum())
            .toList();
    long tags = 0;
    for (var share : readers.invokeAll(shares)) {
      tags += share.get();
    }
    readers.shutdown();
    System.out.printf(Locale.ROOT, "  %d directories of tags%n", tags);
  }

  private static void hash(Path photos, int files) throws IOException {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (int i = 0; i < files; i++) {
        digest.digest(Files.readAllBytes(file(photos, i)));
      }
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private static int tags(Path file) {
    try {
      return ImageMetadataReader.readMetadata(file.toFile()).getDirectoryCount();
    } catch (ImageProcessingException e) {
      throw new IllegalStateException(e);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void exiftool(Path photos, int files)
      throws IOException, InterruptedException, ExecutionException {
    boolean installed =
        Stream.of(String.valueOf(System.getenv("PATH")).split(File.pathSeparator))
            .anyMatch(folder -> Files.isExecutable(Path.of(folder, "exiftool")));
    if (installed) {
      int asked = Math.min(files, MOST_FOR_EXIFTOOL);
      List<String> command = new ArrayList<>(List.of("exiftool", "-fast2", "-csv", "-q", "-r"));
      for (int i = 0; i < asked; i += FOLDER_SIZE) {
        command.add(String.valueOf(file(photos, i).getParent()));
      }
      say(
          "exiftool -fast2 -csv, " + asked + " files",
          asked,
          time(
              () ->
                  new ProcessBuilder(command)
                      .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                      .redirectError(ProcessBuilder.Redirect.DISCARD)
                      .start()
                      .waitFor()));
    }
  }

  private static void memory() throws IOException {
    long heap =
        ManagementFactory.getMemoryPoolMXBeans().stream()
            .filter(pool -> pool.getType() == MemoryType.HEAP)
            .map(MemoryPoolMXBean::getPeakUsage)
            .mapToLong(usage -> usage.getUsed())
            .sum();
    System.out.printf(
        Locale.ROOT,
        "  at most %d MB of heap used, of %d MB allowed",
        heap >> 20,
        Runtime.getRuntime().maxMemory() >> 20);
    Path status = Path.of("/proc/self/status");
    if (Files.isReadable(status)) {
      for (String line : Files.readAllLines(status)) {
        if (line.startsWith("VmHWM:")) {
          System.out.printf(
              Locale.ROOT, "; the process at most%s", line.substring(6).replaceAll("\\s+", " "));
        }
      }
    }
    System.out.println();
  }
}

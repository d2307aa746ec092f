package org.lightledger.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.util.List;
import java.util.Locale;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.exif.EmbeddedPreview;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.ImageBytes;
import org.lightledger.shot.exif.Mutations;
import org.lightledger.shot.exif.UnreadableImageException;

/**
 * Reads many damaged copies of the real files, in every format, and tells the slowest one's time
 * and the memory needed. Run the main method with the test class path; the first argument is how
 * many (20,000 when absent), the second the seed.
 */
public final class FuzzBench {
  private FuzzBench() {}

  /** Runs it; a file that is neither read nor refused by name ends the run. */
  public static void main(String[] args) {
    int rounds = args.length > 0 ? Integer.parseInt(args[0]) : 20_000;
    long seed = args.length > 1 ? Long.parseLong(args[1]) : 1;
    List<byte[]> files = Mutations.realFiles(Integer.MAX_VALUE, Integer.MAX_VALUE);
    Mutations mutations = new Mutations(files, seed);
    com.sun.management.ThreadMXBean threads =
        (com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean();
    int read = 0;
    int refused = 0;
    int withPicture = 0;
    long slowestNanos = 0;
    long mostBytes = 0;
    long totalNanos = 0;
    for (int i = 0; i < rounds; i++) {
      byte[] content = mutations.next();
      long bytesBefore = threads.getCurrentThreadAllocatedBytes();
      long start = System.nanoTime();
      try {
        Evidence evidence = EvidenceReader.read(content);
        read += evidence.orientation() > 0 ? 1 : 0;
      } catch (UnreadableImageException e) {
        refused++;
      }
      withPicture += EmbeddedPreview.find(ImageBytes.of(content)).pictures().isEmpty() ? 0 : 1;
      long nanos = System.nanoTime() - start;
      totalNanos += nanos;
      slowestNanos = Math.max(slowestNanos, nanos);
      mostBytes = Math.max(mostBytes, threads.getCurrentThreadAllocatedBytes() - bytesBefore);
    }
    long peak =
        ManagementFactory.getMemoryPoolMXBeans().stream()
            .filter(pool -> pool.getType() == MemoryType.HEAP)
            .mapToLong((MemoryPoolMXBean pool) -> pool.getPeakUsage().getUsed())
            .sum();
    System.out.printf(
        Locale.ROOT,
        "%d damaged files of %d real ones, seed %d: %d read, %d refused by name, %d with a picture"
            + " inside; mean %.3f ms, slowest %.1f ms; most allocated for one %.1f MB; peak heap"
            + " %.0f MB%n",
        rounds,
        files.size(),
        seed,
        read,
        refused,
        withPicture,
        totalNanos / 1e6 / rounds,
        slowestNanos / 1e6,
        mostBytes / 1e6,
        peak / 1e6);
  }
}

package org.lightledger.shot.exif;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.lightledger.testing.Reference;

/** Damages files in ways that depend on a seed alone. */
public final class Mutations {
  /** Where signatures, directories and lists of boxes stand; most damage is done there. */
  private static final int[] REACHES = {64, 400, 400, 8192};

  private final List<byte[]> seeds;
  private final Random random;

  /**
   * Mutations of some files.
   *
   * @param seeds the files
   * @param seed of the random numbers
   */
  public Mutations(List<byte[]> seeds, long seed) {
    this.seeds = seeds;
    this.random = new Random(seed);
  }

  /**
   * The real files of the reference, in every format.
   *
   * @param largestJpeg larger JPEG files are left out; they differ in their image data only
   * @param largestOther larger files of other formats are left out
   * @return the files
   */
  public static List<byte[]> realFiles(int largestJpeg, int largestOther) {
    List<byte[]> files = new ArrayList<>();
    for (Map<String, String> row : Reference.csv("photos/truth.csv")) {
      try {
        byte[] content = Files.readAllBytes(Reference.path("photos/" + row.get("file")));
        boolean jpeg = "JPEG".equals(row.get("type"));
        if (content.length <= (jpeg ? largestJpeg : largestOther)) {
          files.add(content);
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return files;
  }

  /**
   * The next damaged file.
   *
   * @return its content
   */
  public byte[] next() {
    byte[] content = seeds.get(random.nextInt(seeds.size())).clone();
    int changes = 1 + random.nextInt(6);
    for (int i = 0; i < changes && content.length > 4; i++) {
      int reach = random.nextInt(4) == 0 ? content.length : REACHES[random.nextInt(4)];
      int at = random.nextInt(Math.min(content.length, reach));
      switch (random.nextInt(6)) {
        case 0 -> content[at] = (byte) random.nextInt(256);
        case 1 -> content[at] ^= (byte) (1 << random.nextInt(8));
        case 2 -> Arrays.fill(content, at, Math.min(content.length, at + 4), (byte) 0xFF);
        case 3 -> Arrays.fill(content, at, Math.min(content.length, at + 4), (byte) 0);
        case 4 -> content = Arrays.copyOf(content, at + 1);
        default -> content = withRepeat(content, at, random.nextInt(64));
      }
    }
    return content;
  }

  private static byte[] withRepeat(byte[] content, int at, int atMost) {
    int to = Math.min(content.length, at + atMost);
    byte[] longer = Arrays.copyOf(content, content.length + to - at);
    System.arraycopy(content, at, longer, to, content.length - at);
    return longer;
  }
}

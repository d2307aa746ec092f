package org.lightledger.scenario.region;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.Deflater;
import java.util.zip.DeflaterOutputStream;

/**
 * Writes an elevation model as a GeoTIFF (OGC GeoTIFF 1.1 on baseline TIFF 6.0): one band, strips
 * packed by Deflate (TIFF Technical Note 2, compression 8).
 */
final class ElevationTiff {
  private static final int ASCII = 2;
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int DOUBLE = 12;
  private static final int STRIP_ROWS = 64;
  private static final int HEADER_BYTES = 8;

  /** How a height is written. */
  enum Sample {
    /** Whole metres in 16 bits with a sign, each as its difference to the one before (TIFF 6.0). */
    WHOLE_METRES(16, 2, 2),
    /** Floating point, rounded to a sixteenth of a metre so that it packs well. */
    SIXTEENTHS(32, 3, 1);

    private final int bits;
    private final int format;
    private final int predictor;

    Sample(int bits, int format, int predictor) {
      this.bits = bits;
      this.format = format;
      this.predictor = predictor;
    }
  }

  /**
   * Where the posts stand.
   *
   * @param epsg a projected system, or 4326
   * @param x of the post in the north-west, in the system's units
   * @param y of the post in the north-west
   * @param step from post to post in both directions
   * @param cols posts in a row
   * @param rows rows
   */
  record Grid(int epsg, double x, double y, double step, int cols, int rows) {}

  /** The height of a post. */
  @FunctionalInterface
  interface Heights {
    double metresAt(double x, double y);
  }

  private final Grid grid;
  private final Sample sample;
  private final List<Entry> entries = new ArrayList<>();

  private ElevationTiff(Grid grid, Sample sample) {
    this.grid = grid;
    this.sample = sample;
  }

  static void write(Path file, Grid grid, Sample sample, Heights heights) throws IOException {
    Files.write(file, new ElevationTiff(grid, sample).bytes(heights));
  }

  private byte[] bytes(Heights heights) throws IOException {
    List<byte[]> strips = new ArrayList<>();
    for (int row = 0; row < grid.rows(); row += STRIP_ROWS) {
      strips.add(packed(row, Math.min(grid.rows(), row + STRIP_ROWS), heights));
    }
    tags(strips);
    int valuesAt = HEADER_BYTES + 2 + entries.size() * 12 + 4;
    int stripsAt = valuesAt + entries.stream().mapToInt(Entry::outsideBytes).sum();
    int end = stripsAt + strips.stream().mapToInt(strip -> strip.length).sum();
    ByteBuffer out = little(end);
    out.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(HEADER_BYTES);
    out.putShort((short) entries.size());
    int outsideAt = valuesAt;
    for (Entry entry : entries) {
      byte[] value = entry.tag() == 273 ? offsets(strips, stripsAt) : entry.value();
      out.putShort((short) entry.tag()).putShort((short) entry.type()).putInt(entry.count());
      int next = out.position() + 4;
      if (value.length <= 4) {
        out.put(value);
      } else {
        out.putInt(outsideAt);
        out.position(outsideAt);
        out.put(value);
        outsideAt += entry.outsideBytes();
      }
      out.position(next);
    }
    out.position(stripsAt);
    strips.forEach(out::put);
    return out.array();
  }

  private static ByteBuffer little(int bytes) {
    return ByteBuffer.allocate(bytes).order(ByteOrder.LITTLE_ENDIAN);
  }

  private static byte[] offsets(List<byte[]> strips, int from) {
    ByteBuffer offsets = little(4 * strips.size());
    int at = from;
    for (byte[] strip : strips) {
      offsets.putInt(at);
      at += strip.length;
    }
    return offsets.array();
  }

  private byte[] packed(int fromRow, int toRow, Heights heights) throws IOException {
    ByteBuffer plain = little((toRow - fromRow) * grid.cols() * sample.bits / 8);
    for (int row = fromRow; row < toRow; row++) {
      int before = 0;
      for (int col = 0; col < grid.cols(); col++) {
        double metres =
            heights.metresAt(grid.x() + col * grid.step(), grid.y() - row * grid.step());
        if (sample == Sample.WHOLE_METRES) {
          int whole = (int) Math.round(metres);
          plain.putShort((short) (whole - before));
          before = whole;
        } else {
          plain.putFloat(Math.round(metres * 16) / 16f);
        }
      }
    }
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    Deflater deflater = new Deflater(Deflater.BEST_COMPRESSION);
    try (DeflaterOutputStream out = new DeflaterOutputStream(packed, deflater)) {
      out.write(plain.array());
    } finally {
      deflater.end();
    }
    return packed.toByteArray();
  }

  private void tags(List<byte[]> strips) {
    boolean geographic = grid.epsg() == 4326;
    add(256, LONG, grid.cols());
    add(257, LONG, grid.rows());
    add(258, SHORT, sample.bits);
    add(259, SHORT, 8);
    add(262, SHORT, 1);
    add(273, LONG, new double[strips.size()]);
    add(277, SHORT, 1);
    add(278, LONG, STRIP_ROWS);
    add(279, LONG, strips.stream().mapToDouble(strip -> strip.length).toArray());
    add(317, SHORT, sample.predictor);
    add(339, SHORT, sample.format);
    add(33550, DOUBLE, grid.step(), grid.step(), 0);
    add(33922, DOUBLE, 0, 0, 0, grid.x() - grid.step() / 2, grid.y() + grid.step() / 2, 0);
    int model = geographic ? 2 : 1;
    int systemKey = geographic ? 2048 : 3072;
    add(34735, SHORT, 1, 1, 0, 3, 1024, 0, 1, model, 1025, 0, 1, 1, systemKey, 0, 1, grid.epsg());
    byte[] noData = "-9999\0".getBytes(StandardCharsets.US_ASCII);
    entries.add(new Entry(42113, ASCII, noData.length, noData));
  }

  private void add(int tag, int type, double... values) {
    ByteBuffer bytes = little(values.length * 8);
    for (double value : values) {
      switch (type) {
        case SHORT -> bytes.putShort((short) value);
        case LONG -> bytes.putInt((int) value);
        default -> bytes.putDouble(value);
      }
    }
    entries.add(
        new Entry(tag, type, values.length, Arrays.copyOf(bytes.array(), bytes.position())));
  }

  private record Entry(int tag, int type, int count, byte[] value) {
    int outsideBytes() {
      return value.length <= 4 ? 0 : value.length + value.length % 2;
    }
  }
}

package org.lightledger.skyline.terrain;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes small GeoTIFFs (OGC GeoTIFF 1.1, baseline TIFF 6.0, one strip, floats) for tests. */
final class TestTiff {
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int DOUBLE = 12;
  private static final int ASCII = 2;

  private TestTiff() {}

  /** The height of a post. */
  @FunctionalInterface
  interface Heights {
    double at(double x, double y);
  }

  /**
   * Writes a file whose pixel centres stand at x, y, x + step, y - step and so on.
   *
   * @param epsg a projected system, or 4326
   */
  static Path write(
      Path file, int epsg, double x, double y, double step, int cols, int rows, Heights heights)
      throws IOException {
    boolean geographic = epsg == 4326;
    ByteBuffer pixels = ByteBuffer.allocate(cols * rows * 4).order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < rows; row++) {
      for (int col = 0; col < cols; col++) {
        pixels.putFloat((float) heights.at(x + col * step, y - row * step));
      }
    }
    List<Entry> entries = new ArrayList<>();
    entries.add(Entry.of(256, LONG, cols));
    entries.add(Entry.of(257, LONG, rows));
    entries.add(Entry.of(258, SHORT, 32));
    entries.add(Entry.of(259, SHORT, 1));
    entries.add(Entry.of(262, SHORT, 1));
    entries.add(Entry.of(273, LONG, 0));
    entries.add(Entry.of(277, SHORT, 1));
    entries.add(Entry.of(278, LONG, rows));
    entries.add(Entry.of(279, LONG, cols * rows * 4));
    entries.add(Entry.of(339, SHORT, 3));
    entries.add(Entry.of(33550, DOUBLE, step, step, 0));
    entries.add(Entry.of(33922, DOUBLE, 0, 0, 0, x - step / 2, y + step / 2, 0));
    entries.add(
        Entry.of(
            34735,
            SHORT,
            1,
            1,
            0,
            3,
            1024,
            0,
            1,
            geographic ? 2 : 1,
            1025,
            0,
            1,
            1,
            geographic ? 2048 : 3072,
            0,
            1,
            epsg));
    entries.add(Entry.text(42113, "-9999"));
    Files.write(file, file(entries, pixels.array()));
    return file;
  }

  private static byte[] file(List<Entry> entries, byte[] pixels) {
    int directoryAt = 8;
    int valuesAt = directoryAt + 2 + entries.size() * 12 + 4;
    int pixelsAt = valuesAt + entries.stream().mapToInt(Entry::outsideBytes).sum();
    ByteBuffer out = ByteBuffer.allocate(pixelsAt + pixels.length).order(ByteOrder.LITTLE_ENDIAN);
    out.put((byte) 'I').put((byte) 'I').putShort((short) 42).putInt(directoryAt);
    out.putShort((short) entries.size());
    int outsideAt = valuesAt;
    for (Entry entry : entries) {
      byte[] value =
          entry.tag == 273
              ? ByteBuffer.allocate(4).order(ByteOrder.LITTLE_ENDIAN).putInt(pixelsAt).array()
              : entry.value;
      out.putShort((short) entry.tag).putShort((short) entry.type).putInt(entry.count);
      if (value.length <= 4) {
        int next = out.position() + 4;
        out.put(value).position(next);
      } else {
        out.putInt(outsideAt);
        ByteBuffer there = out.duplicate();
        there.position(outsideAt);
        there.put(value);
        outsideAt += entry.outsideBytes();
      }
    }
    out.position(pixelsAt);
    out.put(pixels);
    return out.array();
  }

  private record Entry(int tag, int type, int count, byte[] value) {
    static Entry of(int tag, int type, double... values) {
      ByteBuffer bytes = ByteBuffer.allocate(values.length * 8).order(ByteOrder.LITTLE_ENDIAN);
      for (double value : values) {
        switch (type) {
          case SHORT -> bytes.putShort((short) value);
          case LONG -> bytes.putInt((int) value);
          default -> bytes.putDouble(value);
        }
      }
      byte[] used = java.util.Arrays.copyOf(bytes.array(), bytes.position());
      return new Entry(tag, type, values.length, used);
    }

    static Entry text(int tag, String text) {
      byte[] bytes = (text + "\0").getBytes(StandardCharsets.US_ASCII);
      return new Entry(tag, ASCII, bytes.length, bytes);
    }

    int outsideBytes() {
      return value.length <= 4 ? 0 : value.length + value.length % 2;
    }
  }
}

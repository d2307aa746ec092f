package org.lightledger.scenario;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Writes an Exif segment (CIPA DC-008, Exif 2.32) into a JPEG: a big-endian TIFF structure with a
 * main, an Exif and a GPS directory.
 */
final class ExifWriter {
  private static final int ASCII = 2;
  private static final int SHORT = 3;
  private static final int LONG = 4;
  private static final int RATIONAL = 5;
  private static final int UNDEFINED = 7;
  private static final int BYTE = 1;
  private static final int EXIF_POINTER = 0x8769;
  private static final int GPS_POINTER = 0x8825;

  private record Entry(int tag, int type, int count, byte[] value) {}

  /** One directory under construction. */
  static final class Directory {
    private final List<Entry> entries = new ArrayList<>();

    Directory ascii(int tag, String text) {
      byte[] bytes = (text + "\0").getBytes(StandardCharsets.US_ASCII);
      return add(tag, ASCII, bytes.length, bytes);
    }

    Directory number(int tag, int value) {
      return add(tag, SHORT, 1, ByteBuffer.allocate(2).putShort((short) value).array());
    }

    Directory size(int tag, int pixels) {
      return pointer(tag, pixels);
    }

    Directory bytes(int tag, int... values) {
      return add(tag, BYTE, values.length, narrow(values));
    }

    Directory undefined(int tag, int... values) {
      return add(tag, UNDEFINED, values.length, narrow(values));
    }

    private static byte[] narrow(int... values) {
      byte[] bytes = new byte[values.length];
      for (int i = 0; i < values.length; i++) {
        bytes[i] = (byte) values[i];
      }
      return bytes;
    }

    /** Rationals as numerators over one denominator each, in pairs. */
    Directory rationals(int tag, long... pairs) {
      ByteBuffer buffer = ByteBuffer.allocate(4 * pairs.length);
      for (long part : pairs) {
        buffer.putInt((int) part);
      }
      return add(tag, RATIONAL, pairs.length / 2, buffer.array());
    }

    private Directory pointer(int tag, int offset) {
      return add(tag, LONG, 1, ByteBuffer.allocate(4).putInt(offset).array());
    }

    private Directory add(int tag, int type, int count, byte[] value) {
      entries.add(new Entry(tag, type, count, value));
      return this;
    }

    private boolean isEmpty() {
      return entries.isEmpty();
    }

    private int length() {
      int length = 2 + 12 * entries.size() + 4;
      for (Entry entry : entries) {
        if (entry.value().length > 4) {
          length += entry.value().length + (entry.value().length & 1);
        }
      }
      return length;
    }

    private byte[] at(int offset) {
      entries.sort(Comparator.comparingInt(Entry::tag));
      ByteBuffer buffer = ByteBuffer.allocate(length());
      buffer.putShort((short) entries.size());
      int data = 2 + 12 * entries.size() + 4;
      for (Entry entry : entries) {
        buffer.putShort((short) entry.tag()).putShort((short) entry.type()).putInt(entry.count());
        if (entry.value().length <= 4) {
          int next = buffer.position() + 4;
          buffer.put(entry.value()).position(next);
        } else {
          buffer.putInt(offset + data);
          int next = buffer.position();
          buffer.position(data);
          buffer.put(entry.value());
          buffer.position(next);
          data += entry.value().length + (entry.value().length & 1);
        }
      }
      return buffer.array();
    }
  }

  private ExifWriter() {}

  /**
   * Puts an Exif segment in front of a JPEG's own segments, in place of its JFIF segment.
   *
   * @param jpeg a JPEG without Exif
   * @param main the main directory
   * @param exif the Exif directory
   * @param gps the GPS directory; left out when it has no entries
   */
  static byte[] insert(byte[] jpeg, Directory main, Directory exif, Directory gps) {
    main.pointer(EXIF_POINTER, 0);
    if (!gps.isEmpty()) {
      main.pointer(GPS_POINTER, 0);
    }
    int exifAt = 8 + main.length();
    int gpsAt = exifAt + exif.length();
    main.entries.removeIf(entry -> entry.tag() == EXIF_POINTER || entry.tag() == GPS_POINTER);
    main.pointer(EXIF_POINTER, exifAt);
    if (!gps.isEmpty()) {
      main.pointer(GPS_POINTER, gpsAt);
    }
    ByteArrayOutputStream tiff = new ByteArrayOutputStream();
    tiff.writeBytes(new byte[] {'E', 'x', 'i', 'f', 0, 0, 'M', 'M', 0, 42, 0, 0, 0, 8});
    tiff.writeBytes(main.at(8));
    tiff.writeBytes(exif.at(exifAt));
    if (!gps.isEmpty()) {
      tiff.writeBytes(gps.at(gpsAt));
    }
    int length = tiff.size() + 2;
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(jpeg, 0, 2);
    out.writeBytes(new byte[] {(byte) 0xFF, (byte) 0xE1, (byte) (length >> 8), (byte) length});
    out.writeBytes(tiff.toByteArray());
    int rest = 2;
    if ((jpeg[2] & 0xFF) == 0xFF && (jpeg[3] & 0xFF) == 0xE0) {
      rest += 2 + (((jpeg[4] & 0xFF) << 8) | (jpeg[5] & 0xFF));
    }
    out.write(jpeg, rest, jpeg.length - rest);
    return out.toByteArray();
  }
}

package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;

/** Builds small TIFF structures and JPEG files for tests, tag by tag (TIFF 6.0, section 2). */
public final class ExifBuilder {
  /** Where a tag stands. */
  public enum Directory {
    IFD0,
    EXIF,
    GPS
  }

  private record Entry(int tag, int type, int count, byte[] value) {}

  private final ByteOrder order;
  private final Map<Directory, List<Entry>> entries = new EnumMap<>(Directory.class);

  private ExifBuilder(ByteOrder order) {
    this.order = order;
    for (Directory directory : Directory.values()) {
      entries.put(directory, new ArrayList<>());
    }
  }

  public static ExifBuilder bigEndian() {
    return new ExifBuilder(ByteOrder.BIG_ENDIAN);
  }

  public static ExifBuilder littleEndian() {
    return new ExifBuilder(ByteOrder.LITTLE_ENDIAN);
  }

  public ExifBuilder ascii(Directory directory, int tag, String text) {
    byte[] value = (text + "\0").getBytes(UTF_8);
    return add(directory, tag, 2, value.length, value);
  }

  public ExifBuilder bytes(Directory directory, int tag, int... values) {
    byte[] value = new byte[values.length];
    for (int i = 0; i < values.length; i++) {
      value[i] = (byte) values[i];
    }
    return add(directory, tag, 1, values.length, value);
  }

  public ExifBuilder shorts(Directory directory, int tag, int... values) {
    ByteBuffer buffer = ByteBuffer.allocate(values.length * 2).order(order);
    for (int value : values) {
      buffer.putShort((short) value);
    }
    return add(directory, tag, 3, values.length, buffer.array());
  }

  public ExifBuilder longs(Directory directory, int tag, long... values) {
    ByteBuffer buffer = ByteBuffer.allocate(values.length * 4).order(order);
    for (long value : values) {
      buffer.putInt((int) value);
    }
    return add(directory, tag, 4, values.length, buffer.array());
  }

  /** Numerators and denominators in turn. */
  public ExifBuilder rationals(Directory directory, int tag, long... numbers) {
    return rationals(directory, tag, 5, numbers);
  }

  /** Signed numerators and denominators in turn. */
  public ExifBuilder signedRationals(Directory directory, int tag, long... numbers) {
    return rationals(directory, tag, 10, numbers);
  }

  private ExifBuilder rationals(Directory directory, int tag, int type, long... numbers) {
    ByteBuffer buffer = ByteBuffer.allocate(numbers.length * 4).order(order);
    for (long number : numbers) {
      buffer.putInt((int) number);
    }
    return add(directory, tag, type, numbers.length / 2, buffer.array());
  }

  private ExifBuilder add(Directory directory, int tag, int type, int count, byte[] value) {
    entries.get(directory).add(new Entry(tag, type, count, value));
    return this;
  }

  /** Latitude and longitude as degrees, minutes and hundredths of a second, with their letters. */
  public ExifBuilder position(
      String latitudeRef, long[] latitude, String lonRef, long[] longitude) {
    return ascii(Directory.GPS, Tags.GPS_LATITUDE_REF, latitudeRef)
        .rationals(Directory.GPS, Tags.GPS_LATITUDE, latitude)
        .ascii(Directory.GPS, Tags.GPS_LONGITUDE_REF, lonRef)
        .rationals(Directory.GPS, Tags.GPS_LONGITUDE, longitude);
  }

  /** The TIFF structure. */
  public byte[] tiff() {
    int ifd0At = 8;
    boolean hasExif = !entries.get(Directory.EXIF).isEmpty();
    boolean hasGps = !entries.get(Directory.GPS).isEmpty();
    int pointers = (hasExif ? 1 : 0) + (hasGps ? 1 : 0);
    int exifAt = ifd0At + length(Directory.IFD0, pointers);
    int gpsAt = exifAt + (hasExif ? length(Directory.EXIF, 0) : 0);
    List<Entry> ifd0 = new ArrayList<>(entries.get(Directory.IFD0));
    if (hasExif) {
      ifd0.add(pointer(Tags.EXIF_IFD, exifAt));
    }
    if (hasGps) {
      ifd0.add(pointer(Tags.GPS_IFD, gpsAt));
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes((order == ByteOrder.BIG_ENDIAN ? "MM" : "II").getBytes(ISO_8859_1));
    out.writeBytes(ByteBuffer.allocate(6).order(order).putShort((short) 42).putInt(8).array());
    write(out, ifd0, ifd0At);
    if (hasExif) {
      write(out, entries.get(Directory.EXIF), exifAt);
    }
    if (hasGps) {
      write(out, entries.get(Directory.GPS), gpsAt);
    }
    return out.toByteArray();
  }

  private Entry pointer(int tag, int offset) {
    return new Entry(tag, 4, 1, ByteBuffer.allocate(4).order(order).putInt(offset).array());
  }

  private int length(Directory directory, int morePointers) {
    int length = 2 + 12 * (entries.get(directory).size() + morePointers) + 4;
    for (Entry entry : entries.get(directory)) {
      length += entry.value().length > 4 ? entry.value().length : 0;
    }
    return length;
  }

  private void write(ByteArrayOutputStream out, List<Entry> directory, int at) {
    int dataAt = at + 2 + 12 * directory.size() + 4;
    ByteArrayOutputStream data = new ByteArrayOutputStream();
    out.writeBytes(ByteBuffer.allocate(2).order(order).putShort((short) directory.size()).array());
    for (Entry entry : directory) {
      ByteBuffer buffer = ByteBuffer.allocate(12).order(order);
      buffer.putShort((short) entry.tag()).putShort((short) entry.type()).putInt(entry.count());
      if (entry.value().length > 4) {
        buffer.putInt(dataAt + data.size());
        data.writeBytes(entry.value());
      } else {
        buffer.put(entry.value());
      }
      out.writeBytes(buffer.array());
    }
    out.writeBytes(new byte[4]);
    out.writeBytes(data.toByteArray());
  }

  /** A JPEG file of 4 by 3 pixels with this Exif block, up to the start of its image data. */
  public byte[] jpeg() {
    return jpegOf(segment(0xE1, "Exif\0\0", tiff()));
  }

  /** A JPEG file of 4 by 3 pixels with the given segments before its frame. */
  public static byte[] jpegOf(byte[]... segments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.write(0xFF);
    out.write(0xD8);
    for (byte[] segment : segments) {
      out.writeBytes(segment);
    }
    out.writeBytes(segment(0xC0, "", new byte[] {8, 0, 3, 0, 4, 1, 1, 0x11, 0}));
    out.writeBytes(segment(0xDA, "", new byte[] {1, 1, 0, 0, 63, 0}));
    out.write(0xFF);
    out.write(0xD9);
    return out.toByteArray();
  }

  /** One JPEG segment. */
  public static byte[] segment(int marker, String id, byte[] payload) {
    byte[] head = id.getBytes(ISO_8859_1);
    int length = 2 + head.length + payload.length;
    return ByteBuffer.allocate(length + 2)
        .put((byte) 0xFF)
        .put((byte) marker)
        .putShort((short) length)
        .put(head)
        .put(payload)
        .array();
  }

  /** A JPEG file with only an XMP packet that holds the given attributes of the Exif schema. */
  public static byte[] jpegWithXmp(String attributes) {
    return jpegOf(xmpSegment(attributes));
  }

  /** An XMP segment that holds the given attributes of the Exif schema. */
  public static byte[] xmpSegment(String attributes) {
    String packet =
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">"
            + "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">"
            + "<rdf:Description rdf:about=\"\" xmlns:exif=\"http://ns.adobe.com/exif/1.0/\" "
            + attributes
            + "/></rdf:RDF></x:xmpmeta>";
    return segment(0xE1, "http://ns.adobe.com/xap/1.0/\0", packet.getBytes(UTF_8));
  }
}

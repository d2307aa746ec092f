package org.lightledger.web;

import java.awt.Color;
import java.awt.GradientPaint;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import javax.imageio.ImageIO;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.exif.ExifBuilder;
import org.lightledger.shot.exif.ExifBuilder.Directory;

/** Real JPEG files with real Exif blocks, drawn for the tests. */
final class TestPhotos {
  static final int WIDTH = 640;
  static final int HEIGHT = 480;

  private TestPhotos() {}

  /**
   * A scouting shot; its left half is darker than its right half.
   *
   * @param local capture time such as "2026:11:20 17:00:00", or null for none
   * @param offset offset from UTC such as "+01:00"
   * @param latDeg latitude north
   * @param lonDeg longitude east
   * @param facingDeg true direction of view, or null for none
   * @param orientation Exif orientation
   */
  static byte[] shot(
      @Nullable String local,
      String offset,
      double latDeg,
      double lonDeg,
      @Nullable Double facingDeg,
      int orientation) {
    ExifBuilder exif =
        exposed()
            .shorts(Directory.IFD0, 0x0112, orientation)
            .position(
                latDeg < 0 ? "S" : "N",
                sexagesimal(latDeg),
                lonDeg < 0 ? "W" : "E",
                sexagesimal(lonDeg));
    if (local != null) {
      exif.ascii(Directory.EXIF, 0x9003, local).ascii(Directory.EXIF, 0x9011, offset);
    }
    if (facingDeg != null) {
      exif.ascii(Directory.GPS, 0x10, "T")
          .rationals(Directory.GPS, 0x11, Math.round(facingDeg * 100), 100);
    }
    return withExif(picture(), exif.tiff());
  }

  /**
   * A shot of a camera that knows neither its offset from UTC nor, without a place, where it is.
   *
   * @param local capture time such as "2026:11:20 17:00:00"
   * @param latDeg latitude north, or null for no place
   * @param lonDeg longitude east, or null for no place
   */
  static byte[] plain(String local, @Nullable Double latDeg, @Nullable Double lonDeg) {
    ExifBuilder exif =
        exposed().ascii(Directory.EXIF, 0x9003, local).shorts(Directory.EXIF, 0xA405, 35);
    if (latDeg != null && lonDeg != null) {
      exif.position(
          latDeg < 0 ? "S" : "N", sexagesimal(latDeg), lonDeg < 0 ? "W" : "E", sexagesimal(lonDeg));
    }
    return withExif(picture(), exif.tiff());
  }

  private static ExifBuilder exposed() {
    return ExifBuilder.bigEndian()
        .rationals(Directory.EXIF, 0x829A, 1, 250)
        .rationals(Directory.EXIF, 0x829D, 28, 10)
        .shorts(Directory.EXIF, 0x8827, 100);
  }

  private static long[] sexagesimal(double angleDeg) {
    long hundredths = Math.round(Math.abs(angleDeg) * 360_000);
    return new long[] {
      hundredths / 360_000, 1, hundredths / 6_000 % 60, 1, hundredths % 6_000, 100
    };
  }

  /** Some bytes one after the other. */
  static byte[] concat(byte[]... parts) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] part : parts) {
      out.writeBytes(part);
    }
    return out.toByteArray();
  }

  /** A box of the ISO base media file format. */
  static byte[] box(String type, byte[]... content) {
    byte[] body = concat(content);
    return ByteBuffer.allocate(8 + body.length)
        .putInt(8 + body.length)
        .put(type.getBytes(StandardCharsets.US_ASCII))
        .put(body)
        .array();
  }

  private static byte[] withExif(byte[] jpeg, byte[] tiff) {
    byte[] segment = ExifBuilder.segment(0xE1, "Exif\0\0", tiff);
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(Arrays.copyOf(jpeg, 2));
    out.writeBytes(segment);
    out.writeBytes(Arrays.copyOfRange(jpeg, 2, jpeg.length));
    return out.toByteArray();
  }

  private static byte[] picture() {
    BufferedImage image = new BufferedImage(WIDTH, HEIGHT, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = image.createGraphics();
    graphics.setPaint(
        new GradientPaint(
            0, 0, new Color(0x27, 0x33, 0x3b), WIDTH, 0, new Color(0xff, 0xd0, 0x8a)));
    graphics.fillRect(0, 0, WIDTH, HEIGHT);
    graphics.setColor(new Color(0x15, 0x18, 0x1b));
    graphics.fillOval(WIDTH / 2 - 40, HEIGHT / 2 - 120, 80, 80);
    graphics.fillRect(WIDTH / 2 - 60, HEIGHT / 2 - 45, 120, HEIGHT);
    graphics.dispose();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try {
      ImageIO.write(image, "jpeg", out);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }
}

package org.lightledger.web;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Iterator;
import java.util.Optional;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.ImageOutputStream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Decodes a picture, scales and turns it, and encodes it anew, so that no metadata comes along. */
final class PreviewMaker {
  private static final Logger LOG = LoggerFactory.getLogger(PreviewMaker.class);

  /** More than any camera makes; a small file can claim far more and fill the memory. */
  static final long MOST_PIXELS = 200_000_000L;

  private static final int MOST_SIDE = 30_000;
  private static final float QUALITY = 0.82f;

  private PreviewMaker() {}

  /**
   * Makes a preview.
   *
   * @param original the picture's file
   * @param orientation its Exif orientation in 1..8
   * @param width the preview's greatest width, pixels; a smaller picture is not enlarged
   * @return a JPEG, or nothing when the picture can not be decoded
   */
  static Optional<byte[]> make(Path original, int orientation, int width) {
    try (ImageInputStream in = ImageIO.createImageInputStream(original.toFile())) {
      if (in == null) {
        return Optional.empty();
      }
      Iterator<ImageReader> readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        return Optional.empty();
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in, true, true);
        return decode(reader, orientation, width);
      } finally {
        reader.dispose();
      }
    } catch (IOException | RuntimeException e) {
      LOG.debug("no preview", e);
      return Optional.empty();
    }
  }

  private static Optional<byte[]> decode(ImageReader reader, int orientation, int width)
      throws IOException {
    int storedWidth = reader.getWidth(0);
    int storedHeight = reader.getHeight(0);
    if (storedWidth > MOST_SIDE
        || storedHeight > MOST_SIDE
        || (long) storedWidth * storedHeight > MOST_PIXELS) {
      return Optional.empty();
    }
    boolean sideways = orientation >= 5;
    int uprightWidth = sideways ? storedHeight : storedWidth;
    ImageReadParam reading = reader.getDefaultReadParam();
    int step = Math.max(1, uprightWidth / (2 * width));
    reading.setSourceSubsampling(step, step, 0, 0);
    BufferedImage read = reader.read(0, reading);
    return Optional.of(encode(draw(read, orientation, width)));
  }

  private static BufferedImage draw(BufferedImage read, int orientation, int width) {
    boolean sideways = orientation >= 5;
    int uprightWidth = sideways ? read.getHeight() : read.getWidth();
    int uprightHeight = sideways ? read.getWidth() : read.getHeight();
    double scale = Math.min(1.0, (double) width / uprightWidth);
    int outWidth = Math.max(1, (int) Math.round(uprightWidth * scale));
    int outHeight = Math.max(1, (int) Math.round(uprightHeight * scale));
    BufferedImage out = new BufferedImage(outWidth, outHeight, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = out.createGraphics();
    graphics.setColor(Color.WHITE);
    graphics.fillRect(0, 0, outWidth, outHeight);
    graphics.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
    graphics.setRenderingHint(RenderingHints.KEY_RENDERING, RenderingHints.VALUE_RENDER_QUALITY);
    AffineTransform transform =
        AffineTransform.getScaleInstance(
            (double) outWidth / uprightWidth, (double) outHeight / uprightHeight);
    transform.concatenate(upright(orientation, read.getWidth(), read.getHeight()));
    graphics.drawImage(read, transform, null);
    graphics.dispose();
    return out;
  }

  /**
   * Turns a stored picture upright (Exif 2.32, tag 0x0112: which corner the first row and column
   * are).
   */
  static AffineTransform upright(int orientation, int width, int height) {
    return switch (orientation) {
      case 2 -> new AffineTransform(-1, 0, 0, 1, width, 0);
      case 3 -> new AffineTransform(-1, 0, 0, -1, width, height);
      case 4 -> new AffineTransform(1, 0, 0, -1, 0, height);
      case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
      case 6 -> new AffineTransform(0, 1, -1, 0, height, 0);
      case 7 -> new AffineTransform(0, -1, -1, 0, height, width);
      case 8 -> new AffineTransform(0, -1, 1, 0, 0, width);
      default -> new AffineTransform();
    };
  }

  private static byte[] encode(BufferedImage picture) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      try (ImageOutputStream out = ImageIO.createImageOutputStream(bytes)) {
        writer.setOutput(out);
        ImageWriteParam writing = writer.getDefaultWriteParam();
        writing.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
        writing.setCompressionQuality(QUALITY);
        writer.write(null, new IIOImage(picture, null, null), writing);
      }
      return bytes.toByteArray();
    } finally {
      writer.dispose();
    }
  }
}

package org.lightledger.web;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
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
import org.lightledger.shot.Evidence;
import org.lightledger.shot.exif.EmbeddedPreview;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.ImageBytes;
import org.lightledger.shot.exif.UnreadableImageException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** Decodes a picture, scales and turns it, and encodes it anew, so that no metadata comes along. */
final class PreviewMaker {
  private static final Logger LOG = LoggerFactory.getLogger(PreviewMaker.class);

  /** More than any camera makes; a small file can claim far more and fill the memory. */
  static final long MOST_PIXELS = 200_000_000L;

  private static final int MOST_SIDE = 30_000;
  private static final float QUALITY = 0.82f;

  /** Exif orientation of a picture that needs no turn. */
  private static final int UPRIGHT = 1;

  private final Optional<HeifConverter> converter;
  private final long mostPixels;

  /** A maker that uses a converter for what it can not decode itself, where there is one. */
  PreviewMaker(Optional<HeifConverter> converter) {
    this(converter, MOST_PIXELS);
  }

  /** A maker that refuses larger pictures without decoding them. */
  PreviewMaker(Optional<HeifConverter> converter, long mostPixels) {
    this.converter = converter;
    this.mostPixels = mostPixels;
  }

  /**
   * Makes a preview: of the picture itself, or of the one that it holds inside, or of what a
   * converter makes of it.
   *
   * @param original the picture's file
   * @param orientation its Exif orientation in 1..8
   * @param width the preview's greatest width, pixels; a smaller picture is not enlarged
   * @return a JPEG, or nothing when the picture can not be decoded
   */
  Optional<byte[]> make(Path original, int orientation, int width) {
    try (FileChannel channel = FileChannel.open(original, StandardOpenOption.READ)) {
      ImageBytes bytes = ImageBytes.of(channel);
      EmbeddedPreview embedded = EmbeddedPreview.find(bytes);
      boolean small = embedded.pictures().isEmpty() || embedded.pictures().get(0).widthPx() < width;
      if (embedded.isHeif() && small) {
        Optional<byte[]> made = converted(original, bytes, width);
        if (made.isPresent()) {
          return made;
        }
      }
      return embedded.pictures().isEmpty()
          ? decode(original.toFile(), orientation, width)
          : firstThatDecodes(embedded, bytes, orientation, width);
    } catch (IOException | UncheckedIOException e) {
      LOG.debug("no preview", e);
      return Optional.empty();
    }
  }

  private Optional<byte[]> firstThatDecodes(
      EmbeddedPreview embedded, ImageBytes bytes, int orientation, int width) throws IOException {
    for (EmbeddedPreview.Picture picture : embedded.pictures()) {
      byte[] jpeg = bytes.copy(picture.from(), picture.length());
      Optional<byte[]> made = decode(new ByteArrayInputStream(jpeg), orientation, width);
      if (made.isPresent()) {
        return made;
      }
    }
    return Optional.empty();
  }

  /** The converter turns the picture upright itself. */
  private Optional<byte[]> converted(Path original, ImageBytes bytes, int width) {
    return converter.isEmpty() || !isSane(bytes)
        ? Optional.empty()
        : converter.get().convert(original, jpeg -> decode(jpeg.toFile(), UPRIGHT, width));
  }

  private boolean isSane(ImageBytes bytes) {
    try {
      Evidence evidence = EvidenceReader.read(bytes);
      Integer width = evidence.widthPx();
      Integer height = evidence.heightPx();
      return width != null && height != null && isSane(width, height);
    } catch (UnreadableImageException e) {
      return false;
    }
  }

  private boolean isSane(int width, int height) {
    return width <= MOST_SIDE && height <= MOST_SIDE && (long) width * height <= mostPixels;
  }

  private Optional<byte[]> decode(Object source, int orientation, int width) {
    try (ImageInputStream in = ImageIO.createImageInputStream(source)) {
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

  private Optional<byte[]> decode(ImageReader reader, int orientation, int width)
      throws IOException {
    int storedWidth = reader.getWidth(0);
    int storedHeight = reader.getHeight(0);
    if (!isSane(storedWidth, storedHeight)) {
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

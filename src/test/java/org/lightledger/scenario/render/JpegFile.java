package org.lightledger.scenario.render;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/** Writes pictures as progressive JPEG within a size. */
public final class JpegFile {
  private static final float BEST = 0.88f;
  private static final float WORST = 0.40f;

  private JpegFile() {}

  /**
   * The picture as a JPEG without any metadata, at the best quality that fits.
   *
   * @param picture the picture
   * @param quarterTurn whether to store it turned a quarter to the left, for EXIF orientation 6
   * @param mostBytes the size it should not exceed
   */
  public static byte[] encode(Picture picture, boolean quarterTurn, int mostBytes) {
    BufferedImage image = quarterTurn ? turned(picture) : straight(picture);
    float quality = BEST;
    byte[] bytes = encode(image, quality);
    while (bytes.length > mostBytes && quality > WORST) {
      quality -= 0.03f;
      bytes = encode(image, quality);
    }
    return bytes;
  }

  private static BufferedImage straight(Picture picture) {
    BufferedImage image =
        new BufferedImage(picture.width(), picture.height(), BufferedImage.TYPE_INT_RGB);
    image.setRGB(0, 0, picture.width(), picture.height(), picture.rgb(), 0, picture.width());
    return image;
  }

  private static BufferedImage turned(Picture picture) {
    BufferedImage image =
        new BufferedImage(
            /* width= */ picture.height(),
            /* height= */ picture.width(),
            BufferedImage.TYPE_INT_RGB);
    for (int y = 0; y < picture.height(); y++) {
      for (int x = 0; x < picture.width(); x++) {
        image.setRGB(y, picture.width() - 1 - x, picture.rgb()[y * picture.width() + x]);
      }
    }
    return image;
  }

  private static byte[] encode(BufferedImage image, float quality) {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ImageWriteParam param = writer.getDefaultWriteParam();
    param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
    param.setCompressionQuality(quality);
    param.setProgressiveMode(ImageWriteParam.MODE_DEFAULT);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
      writer.setOutput(out);
      writer.write(null, new IIOImage(image, null, null), param);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}

package org.lightledger.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.zip.CRC32;
import java.util.zip.DeflaterOutputStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.lightledger.shot.exif.EvidenceReader;

/** Small files that unpack to much. */
class GrowingFilesTest {
  @TempDir Path folder;

  /** As many pixels as are taken, in a file of some hundred kilobytes: one picture of zeros. */
  @Test
  void aSmallFileThatUnpacksToAVeryLargePictureCostsLittleMemory() throws IOException {
    Path bomb = folder.resolve("zeros.png");
    int side = (int) Math.sqrt(PreviewMaker.MOST_PIXELS);
    Files.write(bomb, png(side, side, (long) side * (side + 1), new byte[0]));
    assertThat(Files.size(bomb)).isLessThan(1_000_000);

    long before = allocatedBytes();
    Optional<byte[]> made = new PreviewMaker(Optional.empty()).make(bomb, 1, 480);

    assertThat(allocatedBytes() - before).isLessThan(64_000_000);
    assertThat(made).isPresent();
    assertThat(ImageIO.read(new ByteArrayInputStream(made.get())).getWidth()).isEqualTo(480);
  }

  /** Two hundred million bytes of text in a picture of four by four. */
  @Test
  void textThatGrowsIsNotUnpacked() throws Exception {
    byte[] growing =
        TestPhotos.concat(
            "Comment\0\0".getBytes(StandardCharsets.US_ASCII), deflatedZeros(200_000_000L));
    Path bomb = folder.resolve("text.png");
    Files.write(bomb, png(4, 4, 4 * 5, chunk("zTXt", growing)));
    assertThat(Files.size(bomb)).isLessThan(1_000_000);

    long before = allocatedBytes();
    assertThat(new PreviewMaker(Optional.empty()).make(bomb, 1, 480)).isPresent();
    assertThat(EvidenceReader.read(Files.readAllBytes(bomb)).widthPx()).isEqualTo(4);

    assertThat(allocatedBytes() - before).isLessThan(64_000_000);
  }

  private static long allocatedBytes() {
    return ((com.sun.management.ThreadMXBean) ManagementFactory.getThreadMXBean())
        .getCurrentThreadAllocatedBytes();
  }

  /** A grey PNG; each line is its filter's byte and its pixels. */
  private static byte[] png(int width, int height, long pixelBytes, byte[] between) {
    byte[] ihdr =
        ByteBuffer.allocate(13)
            .putInt(width)
            .putInt(height)
            .put(new byte[] {8, 0, 0, 0, 0})
            .array();
    return TestPhotos.concat(
        new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10},
        chunk("IHDR", ihdr),
        between,
        chunk("IDAT", deflatedZeros(pixelBytes)),
        chunk("IEND", new byte[0]));
  }

  private static byte[] chunk(String type, byte[] content) {
    byte[] body = TestPhotos.concat(type.getBytes(StandardCharsets.US_ASCII), content);
    CRC32 crc = new CRC32();
    crc.update(body);
    return ByteBuffer.allocate(8 + body.length)
        .putInt(content.length)
        .put(body)
        .putInt((int) crc.getValue())
        .array();
  }

  private static byte[] deflatedZeros(long count) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (DeflaterOutputStream deflater = new DeflaterOutputStream(out)) {
      byte[] zeros = new byte[1 << 16];
      for (long left = count; left > 0; left -= zeros.length) {
        deflater.write(zeros, 0, (int) Math.min(left, zeros.length));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return out.toByteArray();
  }
}

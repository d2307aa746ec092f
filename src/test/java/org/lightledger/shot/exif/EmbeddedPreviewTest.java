package org.lightledger.shot.exif;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static org.assertj.core.api.Assertions.assertThat;
import static org.lightledger.shot.exif.ExifBuilder.Directory.IFD0;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.time.Duration;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.testing.Reference;

class EmbeddedPreviewTest {
  private static final int SOF_BASELINE = 0xC0;
  private static final int SOF_LOSSLESS = 0xC3;

  private static byte[] jpeg(int frame, int width, int height) {
    byte[] sizes =
        ByteBuffer.allocate(6)
            .put((byte) 8)
            .putShort((short) height)
            .putShort((short) width)
            .put((byte) 3)
            .array();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    out.writeBytes(new byte[] {(byte) 0xFF, (byte) 0xD8});
    out.writeBytes(ExifBuilder.segment(0xE0, "JFIF\0", new byte[9]));
    out.writeBytes(ExifBuilder.segment(frame, "", sizes));
    return out.toByteArray();
  }

  private static byte[] concat(byte[]... parts) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (byte[] part : parts) {
      out.writeBytes(part);
    }
    return out.toByteArray();
  }

  private static List<String> sizes(byte[] content) {
    return EmbeddedPreview.find(ImageBytes.of(content)).pictures().stream()
        .map(picture -> picture.widthPx() + "x" + picture.heightPx() + "@" + picture.from())
        .toList();
  }

  private static byte[] box(String type, byte[]... content) {
    byte[] body = concat(content);
    return ByteBuffer.allocate(8 + body.length)
        .putInt(8 + body.length)
        .put(type.getBytes(ISO_8859_1))
        .put(body)
        .array();
  }

  @Test
  void aRawFilesDirectoriesTellWhereItsPicturesAre() {
    int length =
        ExifBuilder.littleEndian()
            .bytes(IFD0, Tags.DNG_VERSION, 1, 4, 0, 0)
            .longs(IFD0, 0x0111, 0)
            .longs(IFD0, 0x0201, 0)
            .tiff()
            .length;
    byte[] large = jpeg(SOF_BASELINE, 1600, 1200);
    byte[] tiff =
        ExifBuilder.littleEndian()
            .bytes(IFD0, Tags.DNG_VERSION, 1, 4, 0, 0)
            .longs(IFD0, 0x0111, length + large.length)
            .longs(IFD0, 0x0201, length)
            .tiff();

    assertThat(sizes(concat(tiff, large, jpeg(SOF_BASELINE, 160, 120))))
        .containsExactly("1600x1200@" + length, "160x120@" + (length + large.length));
    assertThat(sizes(concat(tiff, large, jpeg(SOF_LOSSLESS, 6000, 4000))))
        .as("sensor data as lossless JPEG is no preview")
        .containsExactly("1600x1200@" + length);
  }

  @ParameterizedTest
  @CsvSource({"IIRO", "MMOR", "IIRS"})
  void aPictureThatNoDirectoryNamesIsFoundByItsStart(String magic) {
    byte[] tiff = ExifBuilder.littleEndian().ascii(IFD0, Tags.MAKE, "OLYMPUS").tiff();
    if (magic.startsWith("MM")) {
      tiff = ExifBuilder.bigEndian().ascii(IFD0, Tags.MAKE, "OLYMPUS").tiff();
    }
    System.arraycopy(magic.getBytes(ISO_8859_1), 0, tiff, 0, 4);

    assertThat(sizes(concat(tiff, new byte[5000], jpeg(SOF_BASELINE, 1600, 1200))))
        .containsExactly("1600x1200@" + (tiff.length + 5000));
  }

  @Test
  void theBoxesOfCr3HoldAThumbnailAPreviewAndTheWholePicture() {
    byte[] metadata = HexFormat.of().parseHex("85c0b687820f11e08111f4ce462b6a48");
    byte[] preview = HexFormat.of().parseHex("eaf42b5e1c984b88b9fbb7dc406e4d16");
    byte[] type = box("ftyp", "crx ".getBytes(ISO_8859_1), new byte[4]);
    byte[] head = new byte[16];
    byte[] whole = jpeg(SOF_BASELINE, 6000, 4000);
    byte[] previews =
        box("uuid", preview, new byte[8], box("PRVW", head, jpeg(SOF_BASELINE, 1620, 1080)));
    byte[] thumbnail = box("uuid", metadata, box("THMB", head, jpeg(SOF_BASELINE, 160, 120)));
    int chunkAt = type.length + 8 + thumbnail.length + 5 * 8 + 16 + previews.length + 8;
    byte[] chunk = box("co64", ByteBuffer.allocate(16).putInt(4, 1).putLong(8, chunkAt).array());
    byte[] track = box("trak", box("mdia", box("minf", box("stbl", chunk))));
    byte[] file = concat(type, box("moov", thumbnail, track), previews, box("mdat", whole));

    assertThat(sizes(file))
        .extracting(found -> found.substring(0, found.indexOf('@')))
        .containsExactly("6000x4000", "1620x1080", "160x120");
    assertThat(sizes(file)).first().asString().endsWith("@" + (file.length - whole.length));
  }

  @Test
  void aCommonPictureNeedsNoneInside() {
    assertThat(sizes(concat(jpeg(SOF_BASELINE, 1600, 1200), jpeg(SOF_BASELINE, 160, 120))))
        .isEmpty();
    assertThat(
            sizes(
                concat(
                    ExifBuilder.bigEndian().shorts(IFD0, Tags.IMAGE_WIDTH, 9).tiff(),
                    jpeg(SOF_BASELINE, 160, 120))))
        .isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "bep/jølstravatnet.pef, 160x120",
    "bep/sample.arw, 160x120",
    "bep/sample.cr2, 1600x1200",
    "bep/sunrise.avif, 256x160",
    "bep/sunrise.webp, 256x160",
    "exiftool/FujiFilm.raf, 8x8",
    "exiftool/Panasonic.rw2, 8x8",
    "exiftool/SigmaDP2.x3f, 8x8"
  })
  void realFilesHoldPictures(String file, String size) throws IOException {
    byte[] content = Files.readAllBytes(Reference.path("photos/" + file));

    assertThat(sizes(content)).first().asString().startsWith(size + "@");
  }

  /** Every second byte begins a picture that is none: the work must not grow with the square. */
  @Test
  void aFileFullOfStartsIsPassedQuickly() {
    byte[] content = new byte[8 * 1024 * 1024];
    System.arraycopy("IIRO".getBytes(ISO_8859_1), 0, content, 0, 4);
    for (int i = 8; i < content.length; i++) {
      content[i] = (byte) (i % 2 == 0 ? 0xFF : 0xD8);
    }

    Assertions.assertTimeoutPreemptively(
        Duration.ofSeconds(10), () -> assertThat(sizes(content)).isEmpty());
  }
}

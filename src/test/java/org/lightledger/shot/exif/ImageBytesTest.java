package org.lightledger.shot.exif;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.lightledger.testing.Reference;

class ImageBytesTest {
  @TempDir Path folder;

  /** Three pages and a bit, in an order that makes the pages come and go. */
  @Test
  void aFileReadsAsItsBytesInMemory() throws IOException {
    byte[] content = new byte[1_000_003];
    Random random = new Random(5);
    random.nextBytes(content);
    Path file = Files.write(folder.resolve("f"), content);
    ImageBytes memory = ImageBytes.of(content);
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      ImageBytes disk = ImageBytes.of(channel);
      assertThat(disk.length()).isEqualTo(content.length);
      for (int i = 0; i < 20_000; i++) {
        int at = random.nextInt(content.length - 300);
        assertThat(disk.uint8(at)).isEqualTo(content[at] & 0xFF);
        assertThat(disk.uint32(at)).isEqualTo(memory.uint32(at));
        assertThat(disk.part(at, 300).copy(7, 290)).isEqualTo(memory.copy(at + 7, 290));
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "-1, 1",
    "10, 1",
    "0, 11",
    "5, 6",
    "5, -1",
    "9223372036854775807, 1",
    "1, 2147483647"
  })
  void nothingOutsideIsGiven(long from, long length) {
    ImageBytes bytes = ImageBytes.of(new byte[10]);

    assertThat(bytes.has(from, length)).isFalse();
    assertThatThrownBy(() -> bytes.copy(from, length)).isInstanceOf(EOFException.class);
  }

  @Test
  void aPartEndsWhereTheWholeEnds() throws EOFException {
    ImageBytes part = ImageBytes.of(new byte[10]).part(6, Long.MAX_VALUE);

    assertThat(part.length()).isEqualTo(4);
    assertThatThrownBy(() -> part.uint8(4)).isInstanceOf(EOFException.class);
    assertThatThrownBy(() -> part.uint8(-1)).isInstanceOf(EOFException.class);
    assertThatThrownBy(() -> part.part(5, 0)).isInstanceOf(EOFException.class);
  }

  @Test
  void aFileThatShrinksIsAFaultAndNoDamage() throws IOException {
    Path file = Files.write(folder.resolve("f"), new byte[1000]);
    try (FileChannel channel =
        FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE)) {
      ImageBytes bytes = ImageBytes.of(channel);
      channel.truncate(10);

      assertThatThrownBy(() -> bytes.uint8(500)).isInstanceOf(UncheckedIOException.class);
    }
  }

  @Test
  void everyRealFileSaysTheSameFromDiskAsFromMemory() throws IOException {
    for (Map<String, String> row : Reference.csv("photos/truth.csv")) {
      Path file = Reference.path("photos/" + row.get("file"));
      try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
        assertThat(said(ImageBytes.of(channel)))
            .as(row.get("file"))
            .isEqualTo(said(ImageBytes.of(Files.readAllBytes(file))));
      }
    }
  }

  private static String said(ImageBytes bytes) {
    String pictures = EmbeddedPreview.find(bytes).toString();
    try {
      return EvidenceReader.read(bytes) + pictures;
    } catch (UnreadableImageException e) {
      return e.problem() + pictures;
    }
  }
}

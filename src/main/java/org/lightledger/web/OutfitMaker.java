package org.lightledger.web;

import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.concurrent.Semaphore;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.ImageBytes;
import org.lightledger.shot.exif.UnreadableImageException;

/**
 * Encodes a picture that a client sent anew: upright, small, without any metadata. One at a time,
 * so that many senders can not fill the memory. Safe for use by several threads.
 */
final class OutfitMaker {
  /** The largest file that is taken, bytes: own choice, twice what a phone makes. */
  static final long MOST_BYTES = 15L * 1024 * 1024;

  /** The most pixels that are decoded: own choice, what phones make at most by default. */
  static final long MOST_PIXELS = 40_000_000;

  /** The largest picture that is kept, bytes: own choice. */
  private static final int MOST_KEPT_BYTES = 3 * 1024 * 1024;

  private static final int WIDTH = 1600;
  private static final int UPRIGHT = 1;

  private final Path folder;
  private final PreviewMaker maker = new PreviewMaker(HeifConverter.installed(), MOST_PIXELS);
  private final Semaphore working = new Semaphore(1);

  /** A maker that works in a folder of the ledger. */
  OutfitMaker(Path folder) {
    this.folder = folder;
  }

  /** The picture anew, or nothing when it is too large or none that can be read. */
  Optional<byte[]> make(UploadedFile sent) {
    if (sent.size() > MOST_BYTES) {
      return Optional.empty();
    }
    working.acquireUninterruptibly();
    try {
      Path part = Files.createTempFile(folder, "outfit-", ".part");
      try (InputStream in = sent.content()) {
        Files.copy(in, part, StandardCopyOption.REPLACE_EXISTING);
        return maker
            .make(part, orientation(part), WIDTH)
            .filter(jpeg -> jpeg.length <= MOST_KEPT_BYTES);
      } finally {
        Files.deleteIfExists(part);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      working.release();
    }
  }

  private static int orientation(Path file) throws IOException {
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      return EvidenceReader.read(ImageBytes.of(channel)).orientation();
    } catch (UnreadableImageException e) {
      return UPRIGHT;
    }
  }
}

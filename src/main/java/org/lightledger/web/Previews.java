package org.lightledger.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Semaphore;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.ImageBytes;
import org.lightledger.shot.exif.UnreadableImageException;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredShot;
import org.lightledger.web.chart.PlainCard;

/**
 * Small pictures of shots: turned upright, without any metadata, made when first asked for and kept
 * in the ledger's folder. Safe for use by several threads.
 */
final class Previews {
  /** The widths that are made; anything else would let a visitor fill the disk. */
  static final Set<Integer> WIDTHS = Set.of(240, 480, 960, 1600);

  private static final int AT_ONCE = 2;

  private final Ledger ledger;
  private final Path folder;
  private final PreviewMaker maker = new PreviewMaker(HeifConverter.installed());
  private final Semaphore working = new Semaphore(AT_ONCE);

  Previews(Ledger ledger, Path folder) {
    this.ledger = ledger;
    this.folder = folder;
  }

  /** Serves a preview to the owner; a plain card stands for a picture that can not be shown. */
  void serve(Context ctx) {
    long id = House.id(ctx, "id");
    int width = width(ctx);
    StoredShot shot =
        ledger
            .read(session -> session.shots().find(id))
            .orElseThrow(() -> PageProblem.notFound("There is no shot with this number."));
    send(ctx, jpeg(shot, width), "private, max-age=86400");
  }

  /** Sends a picture, or the plain card. */
  static void send(Context ctx, Optional<byte[]> jpeg, String caching) {
    ctx.header("Content-Security-Policy", "default-src 'none'; style-src 'unsafe-inline'");
    if (jpeg.isPresent()) {
      ctx.header("Cache-Control", caching);
      ctx.contentType("image/jpeg").result(jpeg.get());
    } else {
      ctx.contentType("image/svg+xml").result(PlainCard.draw().markup());
    }
  }

  /**
   * The preview of a shot, or nothing when its file is gone or can not be shown. Of many who ask
   * for one that is not there yet, those who waited find it made.
   */
  Optional<byte[]> jpeg(long shotId, int width) {
    return ledger.read(session -> session.shots().find(shotId)).flatMap(shot -> jpeg(shot, width));
  }

  private Optional<byte[]> jpeg(StoredShot shot, int width) {
    Path kept = folder.resolve(shot.sha256() + "-" + width + ".jpg");
    try {
      if (Files.exists(kept)) {
        return Optional.of(Files.readAllBytes(kept));
      }
      working.acquireUninterruptibly();
      try {
        return Files.exists(kept)
            ? Optional.of(Files.readAllBytes(kept))
            : makeAndKeep(shot, width, kept);
      } finally {
        working.release();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Optional<byte[]> makeAndKeep(StoredShot shot, int width, Path kept) throws IOException {
    Optional<byte[]> made = Optional.empty();
    for (Path recorded : shot.files()) {
      Path file = present(recorded);
      if (made.isEmpty() && Files.isReadable(file)) {
        made = maker.make(file, orientation(shot, file), width);
      }
    }
    if (made.isPresent()) {
      keep(kept, made.get());
    }
    return made;
  }

  /** An uploaded picture lies in the ledger's folder, which may have been moved since. */
  private Path present(Path file) {
    Path parent = file.getParent();
    return parent == null || !parent.endsWith(Uploads.FOLDER) || Files.exists(file)
        ? file
        : folder.resolveSibling(Uploads.FOLDER).resolve(file.getFileName());
  }

  /** The files of a pair may be stored turned differently; a single one's turn is known. */
  private static int orientation(StoredShot shot, Path file) throws IOException {
    int known = shot.shot().evidence().orientation();
    if (shot.files().size() == 1) {
      return known;
    }
    try (FileChannel channel = FileChannel.open(file, StandardOpenOption.READ)) {
      return EvidenceReader.read(ImageBytes.of(channel)).orientation();
    } catch (UnreadableImageException e) {
      return known;
    }
  }

  private void keep(Path kept, byte[] jpeg) throws IOException {
    Files.createDirectories(folder);
    Path part = Files.createTempFile(folder, "preview-", ".part");
    try {
      Files.write(part, jpeg);
      Files.move(part, kept, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static int width(Context ctx) {
    String text = ctx.queryParam("w");
    for (int width : WIDTHS) {
      if (String.valueOf(width).equals(text)) {
        return width;
      }
    }
    throw PageProblem.notFound("Previews are made 240, 480, 960 and 1600 pixels wide.");
  }
}

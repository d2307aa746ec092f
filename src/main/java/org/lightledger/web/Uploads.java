package org.lightledger.web;

import io.javalin.http.UploadedFile;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.DigestInputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportReport;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;

/**
 * Keeps uploaded files in the ledger's folder: a browser hands over copies, not the originals, so
 * the ledger has to look after them. A file's name there starts with its fingerprint, so that the
 * same picture sent twice is kept once, and two pictures of one name do not meet.
 */
final class Uploads {
  /** The name of the folder, in the ledger's. */
  static final String FOLDER = "imported";

  private static final int NAME_LENGTH = 80;

  private final Path folder;

  Uploads(Path folder) {
    this.folder = folder;
  }

  /**
   * Files kept from one upload.
   *
   * @param paths where they lie
   * @param names what they were called
   * @param fresh those that were not there before
   */
  record Kept(List<Path> paths, Map<Path, String> names, Set<Path> fresh) {
    String nameOf(Path path) {
      return names.getOrDefault(path, path.getFileName().toString());
    }
  }

  Kept keep(List<UploadedFile> sent) {
    List<Path> paths = new ArrayList<>();
    Map<Path, String> names = new HashMap<>();
    Set<Path> fresh = new HashSet<>();
    try {
      Files.createDirectories(folder);
      for (UploadedFile file : sent) {
        Path part = Files.createTempFile(folder, "upload-", ".part");
        try {
          Path kept = folder.resolve(fingerprint(file, part) + "-" + safe(file.filename()));
          if (!Files.exists(kept)) {
            Files.move(part, kept, StandardCopyOption.ATOMIC_MOVE);
            fresh.add(kept);
          }
          if (!names.containsKey(kept)) {
            paths.add(kept);
          }
          names.put(kept, lastName(file.filename()));
        } finally {
          Files.deleteIfExists(part);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return new Kept(paths, names, fresh);
  }

  /**
   * Removes the copies that hold no shot, and those of shots that are there in another file too.
   * Done by the one who writes, so that of two copies that arrive together one stays.
   */
  void tidy(Kept kept, ImportReport report, Ledger ledger) {
    ledger.change(
        session -> {
          for (FileReport file : report.files()) {
            if (kept.fresh().contains(file.path()) && isNeedless(file, session)) {
              delete(file.path());
            }
          }
        });
  }

  private static boolean isNeedless(FileReport file, LedgerSession session) {
    Long shotId = file.shotId();
    return switch (file.status()) {
      case UNREADABLE -> true;
      case KNOWN ->
          shotId != null
              && session.shots().find(shotId).stream()
                  .flatMap(shot -> shot.files().stream())
                  .anyMatch(other -> !other.equals(file.path()) && Files.exists(other));
      default -> false;
    };
  }

  private static void delete(Path path) {
    try {
      Files.deleteIfExists(path);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Removes the copies that were not there before. */
  void discard(Kept kept) {
    kept.fresh().forEach(Uploads::delete);
  }

  private static String fingerprint(UploadedFile file, Path part) throws IOException {
    MessageDigest digest = sha256();
    try (InputStream in = new DigestInputStream(file.content(), digest)) {
      Files.copy(in, part, StandardCopyOption.REPLACE_EXISTING);
    }
    return HexFormat.of().formatHex(digest.digest(), 0, 8);
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** The last part of a name; browsers send the path within a dropped folder. */
  static String lastName(String name) {
    return name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
  }

  /** A name that is safe in any file system: letters, digits, dot, dash and underscore. */
  static String safe(String name) {
    String plain = lastName(name).replaceAll("[^A-Za-z0-9._-]", "_");
    int surplus = Math.max(0, plain.length() - NAME_LENGTH);
    String cut = plain.substring(surplus);
    return cut.isEmpty() ? "picture" : cut;
  }
}

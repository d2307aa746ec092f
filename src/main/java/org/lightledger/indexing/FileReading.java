package org.lightledger.indexing;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.UnreadableImageException;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/** Reads one file: fingerprint, evidence, conclusions, the sun. Safe for several threads. */
final class FileReading {
  /** Larger files are refused rather than loaded; bytes. */
  static final long LARGEST_BYTES = 512L * 1024 * 1024;

  private static final Set<String> IMAGE_EXTENSIONS =
      Set.of(
          "jpg", "jpeg", "jpe", "heic", "heif", "avif", "tif", "tiff", "dng", "cr2", "cr3", "crw",
          "nef", "nrw", "arw", "srf", "sr2", "raf", "orf", "rw2", "pef", "png", "webp", "jxl");

  private final ShotRules rules;
  private final SunEphemeris sun;
  private final ImportOptions options;

  FileReading(ShotRules rules, SunEphemeris sun, ImportOptions options) {
    this.rules = rules;
    this.sun = sun;
    this.options = options;
  }

  /** Whether a shot with this fingerprint needs no second reading. */
  @FunctionalInterface
  interface KnownContent {
    boolean has(String sha256);
  }

  /** A file as it was met. */
  record Source(Path path, long sizeBytes, Instant modified) {}

  /** What reading one file gave. */
  sealed interface Result {
    Source source();
  }

  /** A shot that the ledger did not have when the file was read. */
  record NewShot(Source source, String sha256, Shot shot, @Nullable SunDirection sun)
      implements Result {}

  /** Content that the ledger has already. */
  record KnownShot(Source source, String sha256) implements Result {}

  /** An image file that gave no shot. */
  record Failed(Source source, @Nullable String sha256, Problem problem) implements Result {}

  /** A file that is no image by name nor by content. */
  record Other(Source source) implements Result {}

  Result read(Path path, KnownContent known) {
    Source source = new Source(path, 0, Instant.EPOCH);
    String sha256 = null;
    try {
      BasicFileAttributes attributes = Files.readAttributes(path, BasicFileAttributes.class);
      source = new Source(path, attributes.size(), attributes.lastModifiedTime().toInstant());
      if (source.sizeBytes() > LARGEST_BYTES) {
        return failed(source, null, tooLarge(source.sizeBytes()));
      }
      byte[] content = Files.readAllBytes(path);
      sha256 = fingerprint(content);
      if (known.has(sha256)) {
        return new KnownShot(source, sha256);
      }
      Shot shot = rules.concludeWith(options.word(), EvidenceReader.read(content));
      return new NewShot(source, sha256, shot, ShotSun.of(sun, shot));
    } catch (UnreadableImageException e) {
      return failed(source, sha256, e.problem());
    } catch (IOException e) {
      return failed(source, sha256, notOpened());
    }
  }

  private static Result failed(Source source, @Nullable String sha256, Problem problem) {
    return problem.kind() == Problem.Kind.FORMAT_NOT_READ || hasImageName(source.path())
        ? new Failed(source, sha256, problem)
        : new Other(source);
  }

  private static boolean hasImageName(Path path) {
    String name = String.valueOf(path.getFileName());
    int dot = name.lastIndexOf('.');
    return dot >= 0
        && !name.startsWith(".")
        && IMAGE_EXTENSIONS.contains(name.substring(dot + 1).toLowerCase(Locale.ROOT));
  }

  private static String fingerprint(byte[] content) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(content));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  private static Problem tooLarge(long sizeBytes) {
    return new Problem(
        Problem.Kind.UNREADABLE,
        String.format(
            Locale.ROOT,
            "This file has %d MB; at most %d MB are read.",
            sizeBytes >> 20,
            LARGEST_BYTES >> 20));
  }

  private static Problem notOpened() {
    return new Problem(
        Problem.Kind.UNREADABLE,
        "This file can not be opened. Check that it exists and that you may read it.");
  }
}

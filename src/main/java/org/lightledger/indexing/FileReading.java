package org.lightledger.indexing;

import java.io.EOFException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.ClockCorrection;
import org.lightledger.shot.Evidence;
import org.lightledger.shot.OwnerWord;
import org.lightledger.shot.Problem;
import org.lightledger.shot.Shot;
import org.lightledger.shot.ShotRules;
import org.lightledger.shot.exif.EvidenceReader;
import org.lightledger.shot.exif.ImageBytes;
import org.lightledger.shot.exif.UnreadableImageException;
import org.lightledger.shot.exif.XmpSidecar;
import org.lightledger.sun.SunDirection;
import org.lightledger.sun.SunEphemeris;

/** Reads one file: fingerprint, evidence, conclusions, the sun. Safe for several threads. */
final class FileReading {
  /** Larger files are refused: offsets in them are read as whole numbers of 32 bits; bytes. */
  static final long LARGEST_BYTES = Integer.MAX_VALUE;

  /**
   * So much of a file is in memory at once; larger files are read in pieces. Own choice, bytes: a
   * phone's picture fits.
   */
  private static final int SMALL_BYTES = 4 * 1024 * 1024;

  /** Fingerprinted at a time; own choice, bytes. */
  private static final int PIECE_BYTES = 256 * 1024;

  /** Read from the disk at a time, so that the copy on the way stays in the cache; own choice. */
  private static final int READ_BYTES = 64 * 1024;

  private static final byte[] NOTHING = new byte[0];

  private static final Set<String> IMAGE_EXTENSIONS =
      Set.of(
          "jpg", "jpeg", "jpe", "heic", "heif", "hif", "avif", "tif", "tiff", "dng", "cr2", "cr3",
          "crw", "nef", "nrw", "arw", "srf", "sr2", "raf", "orf", "rw2", "pef", "png", "webp",
          "jxl", "mrw", "x3f", "iiq");

  private final ShotRules rules;
  private final SunEphemeris sun;
  private final ImportOptions options;

  /** A buffer for each thread, because a new array for each file would have to be cleared first. */
  private final ThreadLocal<byte[]> buffers = ThreadLocal.withInitial(() -> NOTHING);

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
  record Source(Path path, long sizeBytes, Instant modified) {
    static Source of(Path path, BasicFileAttributes attributes) {
      return new Source(path, attributes.size(), attributes.lastModifiedTime().toInstant());
    }
  }

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
  record Failed(Source source, Problem problem) implements Result {}

  /** A file that is no image by name nor by content. */
  record Other(Source source) implements Result {}

  /**
   * Reads a file that a walk came by.
   *
   * @param met the file; when it is no longer as its folder listed it, it is read as it is now
   * @param known tells what content is known
   */
  Result read(FileWalk.Met met, KnownContent known) {
    return readAsListed(met, known).orElseGet(() -> read(met.file(), known));
  }

  /** Nothing when the file can not be read, or changed since it was listed or while it was read. */
  private Optional<Result> readAsListed(FileWalk.Met met, KnownContent known) {
    Source listed = Source.of(met.file(), met.attributes());
    try (FileChannel channel = FileChannel.open(met.file(), StandardOpenOption.READ)) {
      Result result = read(listed, channel, met.besideSidecars(), known);
      return listed.equals(source(met.file())) ? Optional.of(result) : Optional.empty();
    } catch (IOException | UncheckedIOException e) {
      return Optional.empty();
    }
  }

  /** Reads a file that may have a sidecar. */
  Result read(Path path, KnownContent known) {
    Source source = new Source(path, 0, Instant.EPOCH);
    try (FileChannel channel = FileChannel.open(path, StandardOpenOption.READ)) {
      source = source(path);
      Result result = read(source, channel, true, known);
      return source.equals(source(path)) ? result : failed(source, changed());
    } catch (IOException | UncheckedIOException e) {
      return failed(source, notOpened());
    }
  }

  private static Source source(Path path) throws IOException {
    return Source.of(path, Files.readAttributes(path, BasicFileAttributes.class));
  }

  private Result read(
      Source source, FileChannel channel, boolean besideSidecars, KnownContent known)
      throws IOException {
    if (source.sizeBytes() > LARGEST_BYTES) {
      return failed(source, tooLarge(source.sizeBytes()));
    }
    boolean small = source.sizeBytes() <= SMALL_BYTES;
    byte[] content = small ? readAll(channel, (int) source.sizeBytes()) : NOTHING;
    ImageBytes bytes =
        small ? ImageBytes.of(content, (int) source.sizeBytes()) : ImageBytes.of(channel);
    try {
      // Films lie among the pictures; they are recognised before all of them would be
      // fingerprinted.
      Evidence evidence = EvidenceReader.read(bytes);
      String sha256 = small ? fingerprint(content, (int) source.sizeBytes()) : fingerprint(bytes);
      if (known.has(sha256)) {
        return new KnownShot(source, sha256);
      }
      Shot shot = conclude(besideSidecars ? withSidecar(source.path(), evidence) : evidence);
      return new NewShot(source, sha256, shot, sunOf(shot));
    } catch (UnreadableImageException e) {
      return failed(source, e.problem());
    }
  }

  /** The content at the start of this thread's buffer, good until its next file. */
  private byte[] readAll(FileChannel channel, int length) throws IOException {
    byte[] buffer = buffers.get();
    if (buffer.length < length) {
      buffer = new byte[Math.min(SMALL_BYTES, Math.max(2 * buffer.length, length))];
      buffers.set(buffer);
    }
    ByteBuffer content = ByteBuffer.wrap(buffer);
    while (content.position() < length) {
      content.limit(Math.min(length, content.position() + READ_BYTES));
      if (channel.read(content) < 0) {
        throw new EOFException("the file became shorter while it was read");
      }
    }
    return buffer;
  }

  private static Evidence withSidecar(Path image, Evidence evidence) throws IOException {
    Optional<Path> sidecar = Sidecars.of(image);
    return sidecar.isEmpty()
        ? evidence
        : XmpSidecar.join(evidence, Files.readAllBytes(sidecar.get()));
  }

  /** What follows from the evidence. */
  Shot conclude(Evidence evidence) {
    return rules.concludeWith(options.word(), evidence);
  }

  /**
   * What follows from the evidence of a shot that is in the ledger: a correction of its camera's
   * clock stands, whatever this import says of cameras.
   */
  Shot concludeAgain(Evidence evidence, ClockCorrection standing) {
    OwnerWord word = options.word();
    return standing.equals(ClockCorrection.NONE)
        ? conclude(evidence)
        : rules.concludeWith(
            new OwnerWord(word.cameraZone(), standing, word.places(), word.about()), evidence);
  }

  private static Result failed(Source source, Problem problem) {
    return problem.kind() == Problem.Kind.FORMAT_NOT_READ || hasImageName(source.path())
        ? new Failed(source, problem)
        : new Other(source);
  }

  /** Where the sun stood, or null when time or place is not known. */
  @Nullable SunDirection sunOf(Shot shot) {
    return ShotSun.of(sun, shot);
  }

  private static boolean hasImageName(Path path) {
    String name = String.valueOf(path.getFileName());
    int dot = name.lastIndexOf('.');
    return dot >= 0
        && !name.startsWith(".")
        && IMAGE_EXTENSIONS.contains(name.substring(dot + 1).toLowerCase(Locale.ROOT));
  }

  private static String fingerprint(byte[] buffer, int length) {
    MessageDigest digest = sha256();
    digest.update(buffer, 0, length);
    return HexFormat.of().formatHex(digest.digest());
  }

  private static String fingerprint(ImageBytes bytes) throws EOFException {
    MessageDigest digest = sha256();
    for (long at = 0; at < bytes.length(); at += PIECE_BYTES) {
      digest.update(bytes.copy(at, Math.min(PIECE_BYTES, bytes.length() - at)));
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
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

  private static Problem changed() {
    return new Problem(
        Problem.Kind.UNREADABLE,
        "This file changed while it was read; import it again when it is complete.");
  }

  private static Problem notOpened() {
    return new Problem(
        Problem.Kind.UNREADABLE,
        "This file can not be opened. Check that it exists and that you may read it.");
  }
}

package org.lightledger.web;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The program heif-convert of libheif, which decodes HEIC and AVIF. It runs with a limit on its
 * time and, through the shell, on its memory, for a picture may be made to break decoders.
 */
final class HeifConverter {
  private static final Logger LOG = LoggerFactory.getLogger(HeifConverter.class);
  private static final String PROGRAM = "heif-convert";

  /** A picture of 48 million pixels takes some seconds on an old machine; own choice. */
  private static final Duration LONGEST = Duration.ofSeconds(30);

  /** A picture of 200 million pixels needs 600 MB for its colours, twice; own choice, kilobytes. */
  private static final int MOST_MEMORY_KB = 2 * 1024 * 1024;

  /** The shell that POSIX puts there; without it nothing is converted. */
  private static final String SHELL = "/bin/sh";

  private final Path program;
  private final Duration longest;

  private HeifConverter(Path program, Duration longest) {
    this.program = program;
    this.longest = longest;
  }

  /** The converter of this machine, or nothing when none is installed. */
  static Optional<HeifConverter> installed() {
    String path = System.getenv("PATH");
    return in(path == null ? "" : path, LONGEST);
  }

  /** The converter in the first of some folders that has it; it is stopped after a time. */
  static Optional<HeifConverter> in(String path, Duration longest) {
    return Pattern.compile(Pattern.quote(File.pathSeparator))
        .splitAsStream(path)
        .filter(folder -> !folder.isEmpty())
        .map(folder -> Path.of(folder, PROGRAM))
        .filter(Files::isExecutable)
        .findFirst()
        .map(program -> new HeifConverter(program, longest));
  }

  /**
   * Converts a picture.
   *
   * @param original the picture's file
   * @param use what to do with the JPEG, which is gone afterwards
   * @return what came of it, or nothing when it could not be converted
   */
  Optional<byte[]> convert(Path original, Function<Path, Optional<byte[]>> use) {
    try {
      Path folder = Files.createTempDirectory("lightledger-heif");
      try {
        return run(original, folder) ? firstIn(folder).flatMap(use) : Optional.empty();
      } finally {
        delete(folder);
      }
    } catch (IOException e) {
      LOG.debug("no conversion", e);
      return Optional.empty();
    }
  }

  private boolean run(Path original, Path folder) throws IOException {
    Process process =
        new ProcessBuilder(
                SHELL,
                "-c",
                "ulimit -v " + MOST_MEMORY_KB + " && exec \"$0\" \"$@\"",
                program.toString(),
                original.toAbsolutePath().toString(),
                folder.resolve("out.jpg").toString())
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .start();
    try {
      return process.waitFor(longest.toMillis(), TimeUnit.MILLISECONDS) && process.exitValue() == 0;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    } finally {
      process.destroyForcibly();
    }
  }

  /** A file with several pictures becomes several files, numbered from the first. */
  private static Optional<Path> firstIn(Path folder) throws IOException {
    List<Path> files = list(folder);
    return files.isEmpty() ? Optional.empty() : Optional.of(files.get(0));
  }

  private static List<Path> list(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.sorted().toList();
    }
  }

  private static void delete(Path folder) throws IOException {
    for (Path file : list(folder)) {
      Files.delete(file);
    }
    Files.delete(folder);
  }
}

package org.lightledger.indexing;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;

/** Lists the files below some roots, in an order that depends on their names alone. */
final class FileWalk {
  private final Set<Path> files = new TreeSet<>(Comparator.comparing(Path::toString));
  private final Set<FileReport> failures = new LinkedHashSet<>();

  /** All regular files below the roots; what can not be visited is a failure, not an end. */
  static FileWalk below(List<Path> roots) {
    FileWalk walk = new FileWalk();
    for (Path root : roots) {
      walk.add(root.toAbsolutePath().normalize());
    }
    return walk;
  }

  List<Path> files() {
    return new ArrayList<>(files);
  }

  List<FileReport> failures() {
    return new ArrayList<>(failures);
  }

  private void add(Path root) {
    try {
      Files.walkFileTree(
          root,
          new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
              if (attributes.isRegularFile()) {
                files.add(file);
              }
              return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult visitFileFailed(Path file, IOException e) {
              failures.add(failure(file));
              return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(Path folder, @Nullable IOException e) {
              if (e != null) {
                failures.add(failure(folder));
              }
              return FileVisitResult.CONTINUE;
            }
          });
    } catch (IOException e) {
      failures.add(failure(root));
    }
  }

  private static FileReport failure(Path path) {
    return Reports.unreadable(
        path,
        new Problem(
            Problem.Kind.UNREADABLE,
            "This file or folder can not be opened. Check that it exists and that you may read"
                + " it."));
  }
}

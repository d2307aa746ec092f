package org.lightledger.indexing;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Set;
import org.lightledger.shot.Problem;

/**
 * Goes through the files below some roots, in the order of their paths as text, holding no more
 * than the names in the folders it is in. What can not be reached is told and is not the end.
 *
 * <p>Symbolic links to files are files. Links to folders are followed when they lead out of the
 * roots, each folder once, so that neither a loop nor a thicket of links is without end.
 */
final class FileWalk implements Iterator<FileWalk.Step> {
  private static final String FOLDER = "/";

  private final Deque<Folder> path = new ArrayDeque<>();
  private final Deque<Step> told = new ArrayDeque<>();
  private final List<Path> roots = new ArrayList<>();
  private final Set<Path> followed = new HashSet<>();
  private final Deque<Path> rootsAhead = new ArrayDeque<>();

  /** What the walk comes by. */
  sealed interface Step {}

  /** A regular file, and whether its folder holds any sidecar, as far as is known. */
  record Met(Path file, BasicFileAttributes attributes, boolean besideSidecars) implements Step {}

  /** Something that can not be reached. */
  record Refused(FileReport line) implements Step {}

  /** A folder the walk is in; the names of folders end in a slash. */
  private record Folder(
      Path path, Iterator<String> names, boolean behindLink, boolean holdsSidecars) {}

  private FileWalk() {}

  /** All regular files below the roots. A root that lies in another one counts once. */
  static FileWalk below(List<Path> roots) {
    FileWalk walk = new FileWalk();
    List<Path> sorted =
        roots.stream()
            .map(root -> root.toAbsolutePath().normalize())
            .distinct()
            .sorted((one, other) -> key(one).compareTo(key(other)))
            .toList();
    for (Path root : sorted) {
      Path real = real(root);
      if (!Files.exists(real) || walk.roots.stream().noneMatch(real::startsWith)) {
        walk.roots.add(real);
        walk.rootsAhead.add(root);
      }
    }
    return walk;
  }

  private static String key(Path root) {
    return Files.isDirectory(root) ? root + FOLDER : root.toString();
  }

  /** The path without links, or itself when there is nothing. */
  private static Path real(Path path) {
    try {
      return path.toRealPath();
    } catch (IOException e) {
      return path;
    }
  }

  @Override
  public boolean hasNext() {
    while (told.isEmpty()) {
      Folder in = path.peek();
      if (in != null && in.names().hasNext()) {
        step(in, in.names().next());
      } else if (in != null) {
        path.pop();
      } else if (!rootsAhead.isEmpty()) {
        startAt(rootsAhead.remove());
      } else {
        return false;
      }
    }
    return true;
  }

  @Override
  public Step next() {
    if (!hasNext()) {
      throw new NoSuchElementException("the walk is over");
    }
    return told.remove();
  }

  private void startAt(Path root) {
    if (Files.isDirectory(root)) {
      enter(root, false);
    } else {
      meet(root, true);
    }
  }

  private void step(Folder in, String name) {
    if (!name.endsWith(FOLDER)) {
      meet(in.path().resolve(name), in.holdsSidecars());
      return;
    }
    Path folder = in.path().resolve(name.substring(0, name.length() - 1));
    boolean link = Files.isSymbolicLink(folder);
    if (!link && !in.behindLink()) {
      enter(folder, false);
      return;
    }
    Path real = real(folder);
    if (roots.stream().noneMatch(real::startsWith) && followed.add(real)) {
      enter(folder, true);
    }
  }

  private void meet(Path file, boolean besideSidecars) {
    try {
      BasicFileAttributes attributes = Files.readAttributes(file, BasicFileAttributes.class);
      if (attributes.isRegularFile()) {
        told.add(new Met(file, attributes, besideSidecars));
      }
    } catch (IOException e) {
      refuse(file, notReached());
    }
  }

  private void enter(Path folder, boolean behindLink) {
    List<String> names = new ArrayList<>();
    try (DirectoryStream<Path> entries = Files.newDirectoryStream(folder)) {
      for (Path entry : entries) {
        if (isWritable(entry)) {
          names.add(Files.isDirectory(entry) ? nameOf(entry) + FOLDER : nameOf(entry));
        } else {
          refuse(entry, nameNotWritable());
        }
      }
    } catch (IOException | DirectoryIteratorException e) {
      refuse(folder, notReached());
    }
    String[] sorted = names.toArray(String[]::new);
    Arrays.sort(sorted);
    boolean holdsSidecars = names.stream().anyMatch(Sidecars::isNameOfOne);
    path.push(new Folder(folder, Arrays.asList(sorted).iterator(), behindLink, holdsSidecars));
  }

  private static String nameOf(Path entry) {
    return String.valueOf(entry.getFileName());
  }

  /** Whether the ledger can write the name down and find the file by it again. */
  private static boolean isWritable(Path entry) {
    try {
      return entry.equals(entry.getFileSystem().getPath(entry.toString()));
    } catch (InvalidPathException e) {
      return false;
    }
  }

  private void refuse(Path path, Problem problem) {
    told.add(new Refused(Reports.unreadable(path, problem)));
  }

  private static Problem notReached() {
    return new Problem(
        Problem.Kind.UNREADABLE,
        "This file or folder can not be opened. Check that it exists and that you may read it.");
  }

  private static Problem nameNotWritable() {
    return new Problem(
        Problem.Kind.UNREADABLE,
        "The name of this file or folder has characters that this computer's language settings can"
            + " not write. Rename it, or start Lightledger with a UTF-8 locale.");
  }

  /** How many files there are to read, or what was counted when the owner stopped it. */
  static int count(List<Path> roots, ImportProgress progress) {
    int files = 0;
    FileWalk walk = below(roots);
    while (!progress.cancelled() && walk.hasNext()) {
      files += walk.next() instanceof Met ? 1 : 0;
    }
    return files;
  }
}

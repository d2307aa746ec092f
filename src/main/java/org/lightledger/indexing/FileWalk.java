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
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import org.jspecify.annotations.Nullable;
import org.lightledger.shot.Problem;

/**
 * Goes through the files below some roots, in the order of their paths as text, holding no more
 * than what the folders it is in list. What can not be reached is told and is not the end.
 *
 * <p>Symbolic links to files are files. Links to folders are followed when they lead out of the
 * roots, each folder once, so that neither a loop nor a thicket of links is without end.
 */
final class FileWalk implements Iterator<FileWalk.Step> {
  private static final String FOLDER = "/";

  private final Deque<Folder> path = new ArrayDeque<>();
  private final Deque<Step> told = new ArrayDeque<>();
  private final List<Path> roots = new ArrayList<>();
  private final Deque<Path> rootsAhead = new ArrayDeque<>();
  private final FolderListener listener;

  /** The folders behind links that were followed, and by which path. */
  private final Map<Path, Path> followed = new HashMap<>();

  /** Is told of each folder before what it holds is met. */
  @FunctionalInterface
  interface FolderListener {
    /** The walk goes into a folder; {@code behindLink} when a link below the roots led there. */
    void entered(Path folder, boolean behindLink);
  }

  /** What the walk comes by. */
  sealed interface Step {}

  /**
   * A regular file as its folder listed it, and whether there can be a sidecar beside it. Between
   * the listing and the reading it may have changed.
   */
  record Met(Path file, BasicFileAttributes attributes, boolean besideSidecars) implements Step {}

  /** Something that can not be reached. */
  record Refused(FileReport line) implements Step {}

  /** What a folder lists: a file or a folder, or, without attributes, what could not be reached. */
  private record Entry(String name, @Nullable BasicFileAttributes attributes) {
    boolean isFolder() {
      return attributes != null && attributes.isDirectory();
    }

    /** Folders stand where the paths of what they hold would. */
    String order() {
      return isFolder() ? name + FOLDER : name;
    }
  }

  /** A folder the walk is in. */
  private record Folder(
      Path path, Iterator<Entry> entries, boolean behindLink, boolean holdsSidecars) {}

  private FileWalk(FolderListener listener) {
    this.listener = listener;
  }

  /** All regular files below the roots. A root that lies in another one counts once. */
  static FileWalk below(List<Path> roots) {
    return below(roots, (folder, behindLink) -> {});
  }

  /** The same, telling the folders as well. */
  static FileWalk below(List<Path> roots, FolderListener listener) {
    FileWalk walk = new FileWalk(listener);
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
      if (in != null && in.entries().hasNext()) {
        step(in, in.entries().next());
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
      meet(root, attributes(root), true);
    }
  }

  private void step(Folder in, Entry entry) {
    Path reached = in.path().resolve(entry.name());
    if (!entry.isFolder()) {
      meet(reached, entry.attributes(), in.holdsSidecars());
      return;
    }
    reach(reached, in.behindLink());
  }

  /** Goes on with a folder that was reached, possibly after the walk was over. */
  void reach(Path folder, boolean fromBehindLink) {
    boolean behindLink = fromBehindLink || Files.isSymbolicLink(folder);
    if (!behindLink || follows(folder)) {
      enter(folder, behindLink);
    }
  }

  /** Once, unless the path by which the folder was followed no longer leads there. */
  private boolean follows(Path folder) {
    Path real = real(folder);
    if (roots.stream().anyMatch(real::startsWith)) {
      return false;
    }
    Path before = followed.get(real);
    boolean again = before != null && !before.equals(folder) && real(before).equals(real);
    if (!again) {
      followed.put(real, folder);
    }
    return !again;
  }

  private void meet(Path file, @Nullable BasicFileAttributes attributes, boolean besideSidecars) {
    if (attributes == null) {
      refuse(file, notReached());
    } else if (attributes.isRegularFile()) {
      told.add(new Met(file, attributes, besideSidecars));
    }
  }

  /** Read once for each file: asking again costs as much as opening it. */
  private static @Nullable BasicFileAttributes attributes(Path path) {
    try {
      return Files.readAttributes(path, BasicFileAttributes.class);
    } catch (IOException e) {
      return null;
    }
  }

  private void enter(Path folder, boolean behindLink) {
    List<Entry> entries = new ArrayList<>();
    try (DirectoryStream<Path> listed = Files.newDirectoryStream(folder)) {
      listener.entered(folder, behindLink);
      for (Path path : listed) {
        if (isWritable(path)) {
          entries.add(new Entry(String.valueOf(path.getFileName()), attributes(path)));
        } else {
          refuse(path, nameNotWritable());
        }
      }
    } catch (IOException | DirectoryIteratorException e) {
      refuse(folder, notReached());
    }
    entries.sort(Comparator.comparing(Entry::order));
    boolean holdsSidecars = entries.stream().map(Entry::name).anyMatch(Sidecars::isNameOfOne);
    path.push(new Folder(folder, entries.iterator(), behindLink, holdsSidecars));
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

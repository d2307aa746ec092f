package org.lightledger.indexing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.ClosedWatchServiceException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchEvent;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.nio.file.attribute.BasicFileAttributes;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * Watches folders for files that come in or change. A file is told once it has been left alone for
 * the settle time, so that one that is still being copied is not read. When the system lost count
 * of the changes, everything is told. Changes are seen from the moment the watch is made. Links are
 * followed as by {@link FileWalk}.
 *
 * <p>For one thread; {@link #close} may be called by another and ends a wait.
 */
public final class FolderWatch implements AutoCloseable {
  /** Own choice: copying programs write without a pause of seconds. */
  public static final Duration STANDARD_SETTLE = Duration.ofSeconds(2);

  /** More files at once are told as their roots; own choice. */
  private static final int MOST_FILES = 10_000;

  private final List<Path> roots;
  private final long settleNanos;
  private final WatchService service;
  private final FileWalk walk;
  private final Map<WatchKey, Folder> folders = new HashMap<>();
  private final Map<Path, Change> waiting = new HashMap<>();
  private boolean lostCount;
  private long lastEventNanos = System.nanoTime();

  /** A folder that is watched, and whether a link below the roots led there. */
  private record Folder(Path path, boolean behindLink) {}

  /** How a file looked when it last changed. */
  private record Change(long nanos, long sizeBytes, long modifiedMs) {}

  /**
   * Starts watching.
   *
   * @param roots the folders, with all folders in them
   * @param settle how long a file must have been left alone
   * @throws IllegalArgumentException when a root is no folder or the system can not watch so many
   */
  public FolderWatch(List<Path> roots, Duration settle) {
    this.roots = roots.stream().map(root -> root.toAbsolutePath().normalize()).toList();
    this.settleNanos = settle.toNanos();
    try {
      service = this.roots.get(0).getFileSystem().newWatchService();
      for (Path root : this.roots) {
        if (!Files.isDirectory(root) || !Files.isReadable(root)) {
          throw new FileSystemException(root.toString(), null, "is no folder that can be read");
        }
      }
      walk = FileWalk.below(this.roots, this::register);
      walk.forEachRemaining(step -> {});
    } catch (IOException | UncheckedIOException e) {
      throw new IllegalArgumentException(
          "expected folders that this computer can watch, found "
              + this.roots
              + "; a system has a largest number of folders that it watches",
          e);
    }
  }

  /**
   * Waits until files have come in or changed, and settled.
   *
   * @param most how long to wait
   * @return the files, or the roots when count was lost; empty when nothing settled or the watch
   *     was closed
   */
  public List<Path> await(Duration most) {
    long end = System.nanoTime() + most.toNanos();
    try {
      do {
        WatchKey key =
            service.poll(
                Math.max(1, Math.min(end - System.nanoTime(), settleNanos / 4)),
                TimeUnit.NANOSECONDS);
        while (key != null) {
          take(key);
          key = service.poll();
        }
        List<Path> settled = settled();
        if (!settled.isEmpty()) {
          return settled;
        }
      } while (System.nanoTime() < end);
    } catch (ClosedWatchServiceException e) {
      return List.of();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    return List.of();
  }

  private void take(WatchKey key) {
    Folder folder = folders.get(key);
    lastEventNanos = System.nanoTime();
    for (WatchEvent<?> event : key.pollEvents()) {
      if (event.kind() == StandardWatchEventKinds.OVERFLOW || folder == null) {
        lostCount = true;
      } else if (event.context() instanceof Path name) {
        changed(folder, folder.path().resolve(name));
      }
    }
    if (!key.reset()) {
      folders.remove(key);
    }
  }

  private void changed(Folder in, Path path) {
    if (Files.isDirectory(path)) {
      cameIn(in, path);
    } else {
      note(path);
    }
  }

  private void note(Path file) {
    Change change = look(file);
    if (change == null) {
      waiting.remove(file);
    } else {
      waiting.put(file, change);
    }
    lostCount |= waiting.size() > MOST_FILES;
  }

  private static @Nullable Change look(Path file) {
    try {
      BasicFileAttributes attributes = Files.readAttributes(file, BasicFileAttributes.class);
      return new Change(
          System.nanoTime(), attributes.size(), attributes.lastModifiedTime().toMillis());
    } catch (IOException e) {
      return null;
    }
  }

  /** A folder that came in has files already, which are noted as well. */
  private void cameIn(Folder in, Path folder) {
    try {
      walk.reach(folder, in.behindLink());
      walk.forEachRemaining(
          step -> {
            if (step instanceof FileWalk.Met met) {
              note(met.file());
            }
          });
    } catch (UncheckedIOException e) {
      lostCount = true;
    }
  }

  private void register(Path folder, boolean behindLink) {
    try {
      folders.put(
          folder.register(
              service, StandardWatchEventKinds.ENTRY_CREATE, StandardWatchEventKinds.ENTRY_MODIFY),
          new Folder(folder, behindLink));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private List<Path> settled() {
    long now = System.nanoTime();
    if (lostCount) {
      if (now - lastEventNanos < settleNanos) {
        return List.of();
      }
      lostCount = false;
      waiting.clear();
      return roots;
    }
    List<Path> settled = new ArrayList<>();
    Iterator<Map.Entry<Path, Change>> entries = waiting.entrySet().iterator();
    while (entries.hasNext()) {
      Map.Entry<Path, Change> entry = entries.next();
      Change before = entry.getValue();
      if (now - before.nanos() >= settleNanos) {
        Change after = look(entry.getKey());
        if (after == null) {
          entries.remove();
        } else if (after.sizeBytes() == before.sizeBytes()
            && after.modifiedMs() == before.modifiedMs()) {
          settled.add(entry.getKey());
          entries.remove();
        } else {
          entry.setValue(after);
        }
      }
    }
    settled.sort(null);
    return settled;
  }

  /** Stops watching. */
  @Override
  public void close() {
    try {
      service.close();
    } catch (IOException e) {
      throw new UncheckedIOException("the watch of folders can not be ended", e);
    }
  }
}

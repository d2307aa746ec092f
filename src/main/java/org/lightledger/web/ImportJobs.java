package org.lightledger.web;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.ImportOptions;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Imports, one at a time: of a folder in the background, of uploaded files within their request.
 * Safe for use by several threads.
 */
final class ImportJobs implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(ImportJobs.class);
  private static final long UPLOAD_WAITS_S = 20;

  private final Importer importer;
  private final ReentrantLock importing = new ReentrantLock();
  private final AtomicLong numbers = new AtomicLong();
  private final ExecutorService background =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "folder-import");
            thread.setDaemon(true);
            return thread;
          });
  private volatile @Nullable Job latest;

  ImportJobs(Importer importer) {
    this.importer = importer;
  }

  /** An import of a folder, followed while it goes on. */
  static final class Job implements ImportProgress {
    /** Where an import stands. */
    enum State {
      WALKING,
      READING,
      DONE,
      CANCELLED,
      FAILED
    }

    private final long id;
    private final Path folder;
    private final List<FileReport> files = new ArrayList<>();
    private final long startedNanos = System.nanoTime();
    private volatile State state = State.WALKING;
    private volatile boolean cancelAsked;
    private volatile int total;

    Job(long id, Path folder) {
      this.id = id;
      this.folder = folder;
    }

    long id() {
      return id;
    }

    Path folder() {
      return folder;
    }

    State state() {
      return state;
    }

    boolean running() {
      return state == State.WALKING || state == State.READING;
    }

    int total() {
      return total;
    }

    List<FileReport> files() {
      synchronized (files) {
        return List.copyOf(files);
      }
    }

    double seconds() {
      return (System.nanoTime() - startedNanos) / 1e9;
    }

    void cancel() {
      cancelAsked = true;
    }

    @Override
    public void started(int count) {
      total = count;
      state = State.READING;
    }

    @Override
    public void done(FileReport file) {
      synchronized (files) {
        files.add(file);
      }
    }

    @Override
    public boolean cancelled() {
      return cancelAsked;
    }
  }

  @Nullable Job latest() {
    return latest;
  }

  /** The job with a number; only the latest is remembered. */
  Job job(long id) {
    Job job = latest;
    if (job == null || job.id() != id) {
      throw PageProblem.notFound("There is no import with this number; only the last is kept.");
    }
    return job;
  }

  /** Starts the import of a folder, unless one is under way. */
  Job start(Path folder) {
    synchronized (numbers) {
      Job before = latest;
      if (before != null && before.running()) {
        throw busy();
      }
      Job job = new Job(numbers.incrementAndGet(), folder);
      latest = job;
      background.execute(() -> run(job));
      return job;
    }
  }

  private void run(Job job) {
    importing.lock();
    try {
      ImportReport report = importer.run(List.of(job.folder()), ImportOptions.standard(), job);
      job.state = report.cancelled() ? Job.State.CANCELLED : Job.State.DONE;
    } catch (RuntimeException e) {
      LOG.error("the import of a folder failed", e);
      job.state = Job.State.FAILED;
    } finally {
      importing.unlock();
    }
  }

  /** Imports files at once; waits for its turn, though not for a whole folder. */
  ImportReport now(List<Path> files) {
    boolean turn = false;
    try {
      turn = importing.tryLock(UPLOAD_WAITS_S, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    if (!turn) {
      throw busy();
    }
    try {
      return importer.run(files, ImportOptions.standard(), ImportProgress.NONE);
    } finally {
      importing.unlock();
    }
  }

  private static PageProblem busy() {
    return new PageProblem(
        409,
        "An import is under way",
        "The ledger takes one import at a time.",
        "Wait for it to end, or cancel it on the import page, then send this again.",
        List.of());
  }

  @Override
  public void close() {
    Job job = latest;
    if (job != null) {
      job.cancel();
    }
    background.shutdown();
    try {
      if (!background.awaitTermination(30, TimeUnit.SECONDS)) {
        LOG.warn("an import did not end within 30 seconds");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}

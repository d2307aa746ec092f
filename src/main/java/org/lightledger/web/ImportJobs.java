package org.lightledger.web;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import org.lightledger.indexing.FileReport;
import org.lightledger.indexing.FolderWatch;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.indexing.Importer;
import org.lightledger.indexing.Pace;
import org.lightledger.indexing.Tally;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Imports, one at a time: of a folder in the background, of uploaded files within their request.
 * Safe for use by several threads.
 */
final class ImportJobs implements AutoCloseable {
  private static final Logger LOG = LoggerFactory.getLogger(ImportJobs.class);
  private static final long UPLOAD_WAITS_S = 20;

  /** How many of the last files are shown; own choice. */
  private static final int MOST_LAST = 50;

  /** How long the end of a watch may be asked for before it is seen; own choice. */
  private static final Duration LOOK_UP = Duration.ofMillis(300);

  private final Importer importer;
  private final Duration settle;
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

  ImportJobs(Importer importer, Duration settle) {
    this.importer = importer;
    this.settle = settle;
  }

  /** An import of a folder, followed while it goes on. */
  static final class Job implements ImportProgress {
    /** Where an import stands. */
    enum State {
      WALKING,
      READING,
      WATCHING,
      DONE,
      CANCELLED,
      FAILED
    }

    private final long id;
    private final Path folder;
    private final boolean watch;
    private final Tally tally = new Tally();
    private final Deque<FileReport> last = new ArrayDeque<>();
    private Pace pace = new Pace(System::nanoTime);
    private long passed;
    private volatile State state = State.WALKING;
    private volatile boolean cancelAsked;
    private volatile long total;

    Job(long id, Path folder, boolean watch) {
      this.id = id;
      this.folder = folder;
      this.watch = watch;
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
      return state == State.WALKING || state == State.READING || state == State.WATCHING;
    }

    /** What can be told of it at one moment. */
    record Look(
        long total,
        long passed,
        OptionalDouble perSecond,
        Map<FileReport.Status, Integer> counts,
        List<FileReport> problems,
        List<FileReport> last) {}

    synchronized Look look() {
      return new Look(
          Math.max(total, passed),
          passed,
          state == State.READING ? pace.perSecond() : OptionalDouble.empty(),
          tally.counts(),
          tally.lines().stream().filter(FileReport::needsEye).toList(),
          List.copyOf(last));
    }

    void cancel() {
      cancelAsked = true;
    }

    @Override
    public synchronized void started(int count) {
      total = passed + count;
      pace = new Pace(System::nanoTime);
      state = State.READING;
    }

    @Override
    public synchronized void done(FileReport file) {
      tally.add(file);
      if (!file.needsEye()) {
        last.addFirst(file);
        if (last.size() > MOST_LAST) {
          last.removeLast();
        }
      }
      step(1);
    }

    @Override
    public synchronized void passedOver(int files) {
      step(files);
    }

    private void step(int files) {
      passed += files;
      pace.reached(passed);
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
  Job start(Path folder, boolean watch) {
    synchronized (numbers) {
      Job before = latest;
      if (before != null && before.running()) {
        throw busy();
      }
      Job job = new Job(numbers.incrementAndGet(), folder, watch);
      latest = job;
      background.execute(() -> run(job));
      return job;
    }
  }

  /** However it ends, it has ended: a job that seemed to run would let no other start. */
  private void run(Job job) {
    Job.State end = Job.State.FAILED;
    try {
      if (job.watch) {
        try (FolderWatch watch = new FolderWatch(List.of(job.folder()), settle)) {
          boolean cancelled = run(job, List.of(job.folder()));
          while (!cancelled && !job.cancelled()) {
            job.state = Job.State.WATCHING;
            List<Path> settled = watch.await(LOOK_UP);
            cancelled = !settled.isEmpty() && run(job, settled);
          }
        }
        end = Job.State.CANCELLED;
      } else {
        end = run(job, List.of(job.folder())) ? Job.State.CANCELLED : Job.State.DONE;
      }
    } catch (RuntimeException e) {
      LOG.error("the import of a folder failed", e);
    } finally {
      job.state = end;
    }
  }

  private boolean run(Job job, List<Path> files) {
    importing.lock();
    try {
      return importer.run(files, importer.options(), job).cancelled();
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
      return importer.run(files, importer.options(), ImportProgress.NONE);
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

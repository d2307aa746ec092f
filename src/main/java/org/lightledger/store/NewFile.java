package org.lightledger.store;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.sql.SQLException;

/**
 * Makes a file beside its final name and gives it that name once it is whole. The name is taken at
 * the start, so that nothing that turns up meanwhile is overwritten.
 */
final class NewFile {
  private final Path target;
  private final String what;

  /**
   * A file to make.
   *
   * @param target its name; there must be none of that name
   * @param what what it is, for errors, such as "backup"
   */
  NewFile(Path target, String what) {
    this.target = target;
    this.what = what;
  }

  /** Fills a file that is there and empty. */
  @FunctionalInterface
  interface Filling {
    void into(Path part) throws IOException, SQLException;
  }

  /**
   * Makes it, or leaves nothing.
   *
   * @param filling fills it
   * @throws LedgerException when there is such a file already, or it can not be written
   */
  void make(Filling filling) {
    take();
    boolean done = false;
    try {
      Path part = Files.createTempFile(target.toAbsolutePath().getParent(), what, ".part");
      try {
        filling.into(part);
        Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
        done = true;
      } finally {
        Files.deleteIfExists(part);
      }
    } catch (IOException e) {
      throw notWritten(e);
    } catch (SQLException e) {
      throw LedgerException.of(e);
    } finally {
      if (!done) {
        giveUp();
      }
    }
  }

  private void take() {
    try {
      Files.createFile(target);
    } catch (FileAlreadyExistsException e) {
      throw new LedgerException(
          LedgerException.Reason.STORAGE,
          "expected the name of a new file, found that "
              + target.getFileName()
              + " exists; choose another name, or move that file away",
          e);
    } catch (IOException e) {
      throw notWritten(e);
    }
  }

  private void giveUp() {
    try {
      Files.deleteIfExists(target);
    } catch (IOException e) {
      throw notWritten(e);
    }
  }

  private LedgerException notWritten(IOException cause) {
    return new LedgerException(
        LedgerException.Reason.STORAGE,
        "the "
            + what
            + " "
            + target.getFileName()
            + " could not be written; check that its folder exists, belongs to you and has room",
        cause);
  }
}

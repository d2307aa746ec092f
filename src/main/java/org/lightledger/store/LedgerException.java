package org.lightledger.store;

import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/** The ledger could not do what was asked. The message says what was found and what to do. */
public final class LedgerException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** What stood in the way. */
  public enum Reason {
    /** Another program holds the ledger for writing. */
    BUSY,
    /** A row breaks a rule of the ledger. */
    RULE_BROKEN,
    /** What was named is not in the ledger. */
    NOT_FOUND,
    /** The folder or file can not be read or written, or the disk is full. */
    STORAGE,
    /** The file is damaged or is no ledger. */
    NOT_A_LEDGER,
    /** The ledger was written by a newer version of the program. */
    NEWER,
    /** Anything else; the cause has the details. */
    OTHER
  }

  private final Reason reason;

  LedgerException(Reason reason, String message) {
    this(reason, message, null);
  }

  LedgerException(Reason reason, String message, @Nullable Throwable cause) {
    super(message, cause);
    this.reason = reason;
  }

  /**
   * What stood in the way.
   *
   * @return the reason
   */
  public Reason reason() {
    return reason;
  }

  static LedgerException notDeleted(long spotId) {
    return new LedgerException(
        Reason.NOT_FOUND,
        "found no deleted spot with the number "
            + spotId
            + " in the ledger; choose one of the list of deleted spots");
  }

  static LedgerException notFound(String what, long id) {
    return new LedgerException(
        Reason.NOT_FOUND,
        "found no " + what + " with the number " + id + " in the ledger; it may have been deleted");
  }

  /** For a row that some other program wrote. */
  static LedgerException foreign(String row, RuntimeException cause) {
    return new LedgerException(
        Reason.NOT_A_LEDGER,
        row
            + " holds something that Lightledger did not write: "
            + cause.getMessage()
            + "; correct it in the program that did, or go back to a backup",
        cause);
  }

  static LedgerException of(SQLException problem) {
    int code =
        problem instanceof SQLiteException sqlite
            ? sqlite.getResultCode().code
            : problem.getErrorCode();
    // The low byte is the primary result code (sqlite.org/rescode.html).
    int primary = code & 0xff;
    if (primary == SQLiteErrorCode.SQLITE_BUSY.code
        || primary == SQLiteErrorCode.SQLITE_LOCKED.code) {
      return new LedgerException(
          Reason.BUSY,
          "another program is writing to this ledger and did not finish in time; let it finish or"
              + " close it, then try again",
          problem);
    }
    if (primary == SQLiteErrorCode.SQLITE_CONSTRAINT.code) {
      return new LedgerException(Reason.RULE_BROKEN, ruleBroken(code, problem), problem);
    }
    if (primary == SQLiteErrorCode.SQLITE_FULL.code) {
      return new LedgerException(
          Reason.STORAGE,
          "the disk is full; nothing was changed; make room and try again",
          problem);
    }
    if (primary == SQLiteErrorCode.SQLITE_READONLY.code) {
      return new LedgerException(
          Reason.STORAGE,
          "the ledger can only be read here: either the file or folder is write-protected, or the"
              + " change was made inside Ledger.read instead of Ledger.write",
          problem);
    }
    if (primary == SQLiteErrorCode.SQLITE_CANTOPEN.code
        || primary == SQLiteErrorCode.SQLITE_PERM.code
        || primary == SQLiteErrorCode.SQLITE_IOERR.code) {
      return new LedgerException(
          Reason.STORAGE,
          "the ledger's file could not be opened or read; check that the folder exists, belongs to"
              + " you and is on a disk that works",
          problem);
    }
    if (primary == SQLiteErrorCode.SQLITE_NOTADB.code
        || primary == SQLiteErrorCode.SQLITE_CORRUPT.code) {
      return new LedgerException(
          Reason.NOT_A_LEDGER,
          "the ledger's file is damaged or is no ledger; run the check, and restore a backup if it"
              + " confirms the damage",
          problem);
    }
    return new LedgerException(Reason.OTHER, "the ledger failed: " + problem.getMessage(), problem);
  }

  private static String ruleBroken(int code, SQLException problem) {
    if (code == SQLiteErrorCode.SQLITE_CONSTRAINT_FOREIGNKEY.code) {
      return "a row names another row that is not in the ledger, or is still named by one;"
          + " nothing was changed";
    }
    // "[SQLITE_CONSTRAINT_CHECK] A CHECK constraint failed (CHECK constraint failed: the rule)"
    String message = String.valueOf(problem.getMessage());
    int start = message.indexOf("failed: ");
    String rule =
        start < 0 || !message.endsWith(")")
            ? message
            : message.substring(start + "failed: ".length(), message.length() - 1);
    if (code == SQLiteErrorCode.SQLITE_CONSTRAINT_NOTNULL.code) {
      return "expected a value, found none in " + rule + "; nothing was changed";
    }
    if (code == SQLiteErrorCode.SQLITE_CONSTRAINT_UNIQUE.code) {
      return "the ledger already has a row with this " + rule + "; nothing was changed";
    }
    return "the ledger refuses the row: " + rule + "; nothing was changed";
  }
}

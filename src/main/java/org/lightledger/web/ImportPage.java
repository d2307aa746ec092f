package org.lightledger.web;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The import.
 *
 * @param folder the folder's path as it was typed
 * @param problems what was wrong with it
 * @param job the import of a folder, or null when there is none
 * @param report what became of uploaded files, or null when none were sent
 * @param most how much one upload may hold, in words
 * @param joinDistance how near to a spot a shot must be to join it, metres, as it was typed
 * @param saved whether that has just been changed
 */
public record ImportPage(
    String folder,
    List<FieldProblem> problems,
    @Nullable JobView job,
    @Nullable ReportView report,
    String most,
    String joinDistance,
    boolean saved) {

  /**
   * An import of a folder.
   *
   * @param id its number
   * @param folder what is imported
   * @param running whether it goes on
   * @param watching whether it waits for more files
   * @param state where it stands, in words
   * @param total how many files there are
   * @param done how many of them it has seen
   * @param rate how fast and how long still, in words, "" when not known
   * @param report what became of the files so far
   */
  public record JobView(
      long id,
      String folder,
      boolean running,
      boolean watching,
      String state,
      long total,
      long done,
      String rate,
      ReportView report) {}

  /**
   * What became of files.
   *
   * @param added how many were added
   * @param known how many the ledger had already
   * @param attention how many wait for the owner
   * @param unreadable how many could not be read
   * @param rows the files
   * @param hidden how many are not listed, in words, "" for none
   */
  public record ReportView(
      int added, int known, int attention, int unreadable, List<FileRow> rows, String hidden) {}

  /**
   * What became of one file, or of several alike.
   *
   * @param name its name, or that of the first
   * @param others the names of the others of which the same is said
   * @param status the code of what became of it
   * @param word the same in words
   * @param when when it was taken, "" when not known
   * @param spot the spot's page, or null
   * @param problems what the owner should know
   */
  public record FileRow(
      String name,
      List<String> others,
      String status,
      String word,
      String when,
      @Nullable String spot,
      List<String> problems) {}

  /**
   * The import of a folder, for a partial update.
   *
   * @param job the import
   * @param waiting how many shots wait for the owner
   */
  public record JobPart(JobView job, int waiting) {}

  /**
   * What became of uploaded files, for a partial update.
   *
   * @param report what became of them
   * @param waiting how many shots wait for the owner
   */
  public record RowsPart(ReportView report, int waiting) {}
}

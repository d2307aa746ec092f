package org.lightledger.indexing;

/** Follows an import and can stop it. Called from the importing thread. */
public interface ImportProgress {
  /** Follows nothing and never stops. */
  ImportProgress NONE =
      new ImportProgress() {
        @Override
        public void started(int files) {}

        @Override
        public void done(FileReport file) {}
      };

  /**
   * The walk is over.
   *
   * @param files how many files there are to read at this moment
   */
  void started(int files);

  /**
   * A file has been read and its result is kept for good, or it could not be reached at all.
   *
   * @param file what became of it
   */
  void done(FileReport file);

  /**
   * Some files have been passed over, because they are no images.
   *
   * @param files how many
   */
  default void passedOver(int files) {}

  /**
   * Whether to stop before the next batch. What was done stays.
   *
   * @return true to stop
   */
  default boolean cancelled() {
    return false;
  }
}

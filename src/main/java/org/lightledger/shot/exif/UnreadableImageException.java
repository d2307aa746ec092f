package org.lightledger.shot.exif;

import org.lightledger.shot.Problem;

/** Nothing can be said about a file; the problem says why. */
public final class UnreadableImageException extends Exception {
  private static final long serialVersionUID = 1L;

  private final transient Problem problem;

  /**
   * Names the problem.
   *
   * @param problem of kind UNREADABLE or FORMAT_NOT_READ
   */
  public UnreadableImageException(Problem problem) {
    super(problem.message());
    this.problem = problem;
  }

  /**
   * Why nothing can be said.
   *
   * @return a problem of kind UNREADABLE or FORMAT_NOT_READ
   */
  public Problem problem() {
    return problem;
  }
}

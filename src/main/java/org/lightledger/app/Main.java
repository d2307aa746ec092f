package org.lightledger.app;

/** Starts Lightledger. */
public final class Main {
  private Main() {}

  /**
   * Entry point.
   *
   * @param args the command line
   */
  public static void main(String[] args) {
    System.exit(args.length == 0 ? 2 : 0);
  }
}

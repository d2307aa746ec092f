package org.lightledger.architecture.seeded.exchange;

import java.net.URI;

/** Breaks the rule that readers of strangers' files open no connection. */
public final class CallsHome {
  private final URI home = URI.create("http://localhost/");

  @Override
  public String toString() {
    return home.toString();
  }
}

package org.lightledger.cli;

import java.io.BufferedReader;
import java.io.Console;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;
import org.lightledger.access.OwnerPassword;
import org.lightledger.access.PasswordHash;
import org.lightledger.access.PasswordRules;
import org.lightledger.store.Ledger;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

@Command(
    name = "password",
    description =
        "Sets or changes the password of your pages, and logs everybody out. It is asked for on the"
            + " console, and never taken from the command line, where others could read it.")
final class PasswordVerb extends Verb {
  @Option(
      names = "--stdin",
      description = "Read the password from the first line of standard input.")
  private boolean stdin;

  @Option(
      names = "--remove",
      description = "Remove it; then your pages are served on this machine alone.")
  private boolean remove;

  PasswordVerb(Services services) {
    super(services);
  }

  @Override
  public Integer call() {
    if (stdin && remove) {
      throw usage("expected --stdin or --remove, found both", null);
    }
    try (Ledger ledger = remove ? open() : openOrMake()) {
      boolean before = ledger.read(OwnerPassword::of).isPresent();
      if (remove) {
        ledger.change(OwnerPassword::remove);
        tell(
            before ? "removed" : "none",
            before ? "The password is removed." : "No password was set.");
      } else {
        String password = stdin ? fromStandardInput() : fromConsole();
        PasswordRules.require(password);
        PasswordHash hash = PasswordHash.of(password, new SecureRandom());
        ledger.change(session -> OwnerPassword.set(session, hash));
        tell(
            before ? "changed" : "set",
            before
                ? "The password is changed; whoever was logged in has to log in again."
                : "The password is set. From now on your pages ask for it.");
      }
    }
    return 0;
  }

  private void tell(String state, String words) {
    print(() -> Json.fields().put("password", state).map(), () -> words + System.lineSeparator());
  }

  private static String fromStandardInput() {
    try {
      BufferedReader lines =
          new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8));
      @Nullable String line = lines.readLine();
      if (line == null) {
        throw new IllegalArgumentException(
            "expected the password in the first line of standard input, found nothing");
      }
      return line;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String fromConsole() {
    Console console = System.console();
    if (console == null) {
      throw new IllegalArgumentException(
          "expected a console to ask for the password on, found none; send it to standard input"
              + " with --stdin");
    }
    char[] first = console.readPassword("New password (at least 15 characters): ");
    char[] again = console.readPassword("The same again: ");
    if (first == null || !Arrays.equals(first, again)) {
      throw new IllegalArgumentException(
          "expected the same password twice, found two different ones; nothing was changed");
    }
    String password = new String(first);
    Arrays.fill(first, ' ');
    Arrays.fill(again, ' ');
    return password;
  }
}

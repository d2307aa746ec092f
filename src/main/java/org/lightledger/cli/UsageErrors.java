package org.lightledger.cli;

import java.io.PrintWriter;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.function.Function;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.TypeConversionException;
import picocli.CommandLine.UnmatchedArgumentException;

/** Says of the words of a command what is wrong with them, as all else says it. */
final class UsageErrors {
  private UsageErrors() {}

  /** Has a command line and all its verbs speak so. */
  static void explain(CommandLine line) {
    line.registerConverter(long.class, text -> whole(text, Long::valueOf));
    line.registerConverter(Long.class, text -> whole(text, Long::valueOf));
    line.registerConverter(int.class, text -> whole(text, Integer::valueOf));
    line.registerConverter(Integer.class, text -> whole(text, Integer::valueOf));
    line.registerConverter(double.class, UsageErrors::number);
    line.registerConverter(Double.class, UsageErrors::number);
    line.registerConverter(LocalDate.class, UsageErrors::day);
    line.setParameterExceptionHandler(UsageErrors::tell);
  }

  private static <T> T whole(String text, Function<String, T> reading) {
    try {
      return reading.apply(text);
    } catch (NumberFormatException e) {
      throw expected("a whole number", text);
    }
  }

  private static Double number(String text) {
    try {
      return new BigDecimal(text).doubleValue();
    } catch (NumberFormatException e) {
      throw expected("a number", text);
    }
  }

  private static LocalDate day(String text) {
    try {
      return LocalDate.parse(text);
    } catch (DateTimeException e) {
      throw expected("a day such as 2026-12-15", text);
    }
  }

  private static TypeConversionException expected(String what, String found) {
    return new TypeConversionException("expected " + what + ", found \"" + found + "\"");
  }

  /**
   * One line for what is wrong and one for where to read on; where a verb is missing, all of them.
   */
  private static int tell(ParameterException e, String[] args) {
    CommandLine command = e.getCommandLine();
    PrintWriter err = command.getErr();
    err.println(e.getMessage());
    if (UnmatchedArgumentException.printSuggestions(e, err)) {
      return CommandLine.ExitCode.USAGE;
    }
    if (command.getSubcommands().isEmpty()) {
      err.println(
          "\"" + command.getCommandSpec().qualifiedName() + " --help\" says how it is used.");
    } else {
      command.usage(err);
    }
    return CommandLine.ExitCode.USAGE;
  }
}

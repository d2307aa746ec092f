package org.lightledger.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.lightledger.store.LedgerException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** The command line's root. */
@Command(
    name = "lightledger",
    description = "A ledger of places and their light, for portrait photographers.",
    mixinStandardHelpOptions = true,
    synopsisSubcommandLabel = "VERB")
public final class Lightledger implements Runnable {
  @Option(
      names = "--ledger",
      paramLabel = "DIR",
      description = "The ledger's folder; made if it does not exist.")
  @Nullable Path ledger;

  private final CommandLine commandLine;

  /**
   * The command line.
   *
   * @param services what the commands work with
   */
  public Lightledger(Services services) {
    commandLine =
        new CommandLine(this)
            .addSubcommand(new DemoVerb(services))
            .addSubcommand(new ImportVerb(services))
            .addSubcommand(new ImportSpotsVerb(services))
            .addSubcommand(new ExportVerb(services))
            .addSubcommand(new AskVerb(services))
            .addSubcommand(new SpotsVerb(services))
            .addSubcommand(new SpotVerb(services))
            .addSubcommand(new SunVerb(services))
            .addSubcommand(new SkylineVerb(services))
            .addSubcommand(new WhenVerb(services))
            .addSubcommand(new RehearseVerb(services))
            .addSubcommand(new AlignVerb(services))
            .addSubcommand(TerrainVerb.of(services))
            .addSubcommand(MapVerb.of(services))
            .addSubcommand(new ShortlistVerb(services))
            .addSubcommand(ShareVerb.of(services))
            .addSubcommand(ClientVerb.of(services))
            .addSubcommand(SessionVerb.of(services))
            .addSubcommand(new PlanVerb(services))
            .addSubcommand(new TodayVerb(services))
            .addSubcommand(new MessageVerb(services))
            .addSubcommand(new SessionFiles.CalendarVerb(services))
            .addSubcommand(new SessionFiles.CallSheetVerb(services))
            .addSubcommand(new CheckVerb(services))
            .addSubcommand(new BackupVerb(services))
            .addSubcommand(new PasswordVerb(services))
            .addSubcommand(new RestoreVerb(services))
            .addSubcommand(new ServeVerb(services));
    commandLine.setExecutionExceptionHandler(Lightledger::explain);
    UsageErrors.explain(commandLine);
  }

  /**
   * Runs a command.
   *
   * @param out where results go
   * @param err where notes and errors go
   * @param args the words of the command
   * @return 0 on success, 2 on bad usage, 1 on failure
   */
  public int run(PrintWriter out, PrintWriter err, String... args) {
    return commandLine.setOut(out).setErr(err).execute(args);
  }

  @Override
  public void run() {
    throw new ParameterException(commandLine, "expected a verb, found none");
  }

  private static int explain(Exception e, CommandLine command, CommandLine.ParseResult parsed)
      throws Exception {
    if (e instanceof IllegalArgumentException) {
      command.getErr().println(e.getMessage());
      return CommandLine.ExitCode.USAGE;
    }
    if (e instanceof LedgerException) {
      command.getErr().println(e.getMessage());
      return CommandLine.ExitCode.SOFTWARE;
    }
    throw e;
  }
}

package org.lightledger.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Locale;
import java.util.Set;
import org.lightledger.ask.Answers;
import org.lightledger.ask.Question;
import org.lightledger.ask.TimeOfDay;
import org.lightledger.demo.DemoLedger;
import org.lightledger.demo.DemoStudio;
import org.lightledger.indexing.ImportProgress;
import org.lightledger.indexing.ImportReport;
import org.lightledger.light.LightClass;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerStock;
import org.lightledger.studio.RegionRoads;
import org.lightledger.studio.SessionPlanning;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
    name = "demo",
    description =
        "Makes the ledger of an invented studio, asks it a question and serves the pages.")
final class DemoVerb extends Verb {
  private static final ZoneId DEMO_ZONE = ZoneId.of("Europe/Madrid");
  private static final LocalTime HOUR = LocalTime.of(17, 0);
  private static final int DAY_OF_NEXT_MONTH = 15;

  @Mixin private ServerOptions options;

  @Option(names = "--no-serve", description = "Stop after the answer.")
  private boolean noServe;

  DemoVerb(Services services) {
    super(services);
  }

  @Override
  Path folder() {
    Path named = namedFolder();
    return named == null ? services.defaultLedger().resolve("demo") : named;
  }

  @Override
  public Integer call() throws InterruptedException {
    try (Ledger ledger = openOrMake()) {
      ImportReport report =
          DemoLedger.fill(
              folder(), ledger, services.importer(ledger), services.clock(), ImportProgress.NONE);
      DemoStudio.fill(ledger, services.studio(ledger), services.clock().instant());
      makeSkylines(ledger);
      RegionRoads.prepare(ledger).forEach(this::note);
      try (RegionRoads roads = new RegionRoads(ledger)) {
        DemoStudio.plan(
            ledger,
            new SessionPlanning(services.studio(ledger), roads, services.sun(), services.clock()));
      }
      Answers answers = services.asker().ask(question(), new LedgerStock(ledger), 100);
      print(
          () -> AskOutput.withoutDrives().json(answers),
          () -> ImportOutput.summary(report) + AskOutput.withoutDrives().text(answers));
      if (!noServe) {
        try (Serving serving = new Serving(services, ledger, options.settings())) {
          note(String.format(Locale.ROOT, "%n%s", serving.text()));
          serving.untilStopped();
        }
      }
    }
    return 0;
  }

  /** Which spots are backlit at five in the afternoon in the middle of next month. */
  private Question question() {
    LocalDate day =
        services
            .clock()
            .instant()
            .atZone(DEMO_ZONE)
            .toLocalDate()
            .plusMonths(1)
            .withDayOfMonth(DAY_OF_NEXT_MONTH);
    return new Question(
        Set.of(LightClass.BACKLIT), day, day, new TimeOfDay.Clock(HOUR, HOUR), null);
  }
}

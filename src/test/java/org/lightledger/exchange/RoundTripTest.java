package org.lightledger.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.lightledger.indexing.SpotAdding;
import org.lightledger.shot.zone.ZonesAtPlace;
import org.lightledger.store.ForeignPackage;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerCheck;
import org.lightledger.store.SpotExport;

/** What leaves a ledger and comes into an empty one is there what it was. */
class RoundTripTest {
  private static final int SPOTS = 250;
  private static final Instant NOW = Instant.parse("2026-11-25T12:00:00Z");
  private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);

  @TempDir static Path folder;
  private static Ledger home;
  private static List<ExchangedSpot> stock;

  @BeforeAll
  static void fill() {
    home = Ledger.open(folder.resolve("home"), CLOCK);
    home.change(session -> RandomSpots.fill(session, SPOTS, new Random(5)));
    stock = export(home);
  }

  @AfterAll
  static void close() {
    home.close();
  }

  @ParameterizedTest
  @EnumSource(SpotFormat.class)
  void losesNothingThatTheFormatCanHold(SpotFormat format) throws Exception {
    Path file = folder.resolve("stock." + format.code());
    SpotExport.write(file, format, stock, NOW);
    try (Ledger away = Ledger.open(folder.resolve(format.code()), CLOCK)) {
      SpotAdding.Report report = adding(away).add(file, false);

      assertThat(report.count(SpotAdding.Status.ADDED)).isEqualTo(SPOTS);
      assertThat(report.lines()).allSatisfy(line -> assertThat(line.remarks()).isEmpty());
      assertThat(report.remarks()).isEmpty();
      List<ExchangedSpot> arrived = export(away);
      boolean xml = format == SpotFormat.KML || format == SpotFormat.GPX;
      assertThat(arrived)
          .isEqualTo(xml ? stock.stream().map(RoundTripTest::asXmlHolds).toList() : stock);

      Path again = folder.resolve("again." + format.code());
      SpotExport.write(again, format, arrived, NOW);
      assertThat(content(again, format)).isEqualTo(content(file, format));

      SpotAdding.Report second = adding(away).add(file, false);
      assertThat(second.count(SpotAdding.Status.KNOWN)).isEqualTo(SPOTS);
      assertThat(second.lines()).allSatisfy(line -> assertThat(line.remarks()).isEmpty());
      assertThat(export(away)).isEqualTo(arrived);
      assertThat(LedgerCheck.run(folder.resolve(format.code()))).isEmpty();
    }
  }

  /** A GeoPackage is compared by what it says, since its bytes hold free pages and counters. */
  private static Object content(Path file, SpotFormat format) throws Exception {
    return format == SpotFormat.GPKG ? ForeignPackage.read(file) : Files.readString(file);
  }

  /** XML 1.0 knows no control characters but three; nothing else may change. */
  private static ExchangedSpot asXmlHolds(ExchangedSpot spot) {
    return new ExchangedSpot(
        held(spot.name()),
        spot.area() == null ? null : held(spot.area()),
        spot.position(),
        spot.zone(),
        spot.open(),
        spot.facings(),
        spot.traits(),
        spot.hazards(),
        held(spot.notes()),
        held(spot.cautions()));
  }

  private static String held(String text) {
    return text.replaceAll("[\\x00-\\x08\\x0b\\x0c\\x0e-\\x1f\\uFFFE\\uFFFF]", "\uFFFD");
  }

  @Test
  void aLedgerItselfIsAFileOfSpots() throws Exception {
    try (Ledger away = Ledger.open(folder.resolve("fromledger"), CLOCK)) {
      Path copy = folder.resolve("backup.gpkg");
      home.backup(copy);
      adding(away).add(copy, false);

      assertThat(export(away)).isEqualTo(stock);
    }
  }

  @ParameterizedTest
  @EnumSource(SpotFormat.class)
  void notesStayAtHomeUnlessTheyAreAskedFor(SpotFormat format) throws IOException {
    Path file = folder.resolve("public." + format.code());
    SpotExport.write(
        file, format, home.read(session -> SpotExport.spots(session, List.of(), false)), NOW);
    assertThat(Files.size(file)).isPositive();
    assertThat(bytes(file)).doesNotContain(RandomSpots.PRIVATE);

    Path all = folder.resolve("private." + format.code());
    SpotExport.write(all, format, stock, NOW);
    assertThat(bytes(all)).contains(RandomSpots.PRIVATE);
  }

  private static String bytes(Path file) throws IOException {
    return new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
  }

  @Test
  void aTrialTellsTheSameAndChangesNothing() throws Exception {
    Path file = folder.resolve("trial.geojson");
    SpotExport.write(file, SpotFormat.GEOJSON, stock.subList(0, 5), NOW);
    try (Ledger away = Ledger.open(folder.resolve("trial"), CLOCK)) {
      SpotAdding.Report tried = adding(away).add(file, true);
      assertThat(export(away)).isEmpty();
      assertThat(adding(away).add(file, false)).isEqualTo(tried);
    }
  }

  private static SpotAdding adding(Ledger ledger) {
    return new SpotAdding(ledger, (place, errorM) -> new ZonesAtPlace(List.of(), List.of()));
  }

  private static List<ExchangedSpot> export(Ledger ledger) {
    return ledger.read(session -> SpotExport.spots(session, List.of(), true));
  }
}

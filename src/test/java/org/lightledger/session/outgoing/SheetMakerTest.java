package org.lightledger.session.outgoing;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.lightledger.geo.GeoPoint;
import org.lightledger.session.Anchor;
import org.lightledger.session.KeptPlan;
import org.lightledger.session.Session;
import org.lightledger.spot.Spot;
import org.lightledger.sun.SpaEphemeris;

class SheetMakerTest {
  private static final ZoneId ZONE = ZoneId.of("Atlantic/Reykjavik");

  @Test
  void thatASessionIsCancelledComesFirst() {
    Dossier cancelled = OutgoingSamples.in(Session.State.CANCELLED, OutgoingSamples.dossier());

    assertThat(SheetMaker.of(new SpaEphemeris(), cancelled).title())
        .isEqualTo("CANCELLED: Berta, Tuesday 15 December 2026");
  }

  @Test
  void theOutfitsAreThoseOfThePlan() {
    Dossier two =
        OutgoingSamples.dossier(
            OutgoingSamples.adult(),
            LocalDateTime.of(2026, 12, 15, 15, 0),
            OutgoingSamples.MADRID,
            2);

    assertThat(SheetMaker.of(new SpaEphemeris(), two).head())
        .contains(new Sheet.Line("Outfits", "2; up to 4 are booked"));
  }

  /** The sun of 20 June sets at 00:03 on the 21st; that of the 19th has set at 00:02 before. */
  @Test
  void theSunsetIsThatOfTheEveningOfTheSession() {
    LocalDate date = LocalDate.of(2027, 6, 24);
    Spot spot =
        new Spot(1, "Pier", null, new GeoPoint(64.15, -21.94), ZONE, false, List.of(), "", "");
    KeptPlan plan = OutgoingSamples.plan(LocalDateTime.of(2027, 6, 24, 23, 10), ZONE, 1);
    Dossier dossier =
        OutgoingSamples.fixed(date, ZONE, new Anchor.EndsAtSunset(0), plan, Map.of(1L, spot));

    Sheet sheet = SheetMaker.of(new SpaEphemeris(), dossier);

    assertThat(sheet.title()).isEqualTo("Berta, Thursday 24 June 2027");
    assertThat(sheet.head())
        .filteredOn(line -> line.name().equals("Sunset"))
        .singleElement()
        .satisfies(line -> assertThat(line.words()).isIn("00:03", "00:04"));
  }
}

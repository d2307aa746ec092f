package org.lightledger.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import org.lightledger.exchange.ExchangedSpot;
import org.lightledger.exchange.GeoJsonSpots;
import org.lightledger.exchange.GpxSpots;
import org.lightledger.exchange.KmlSpots;
import org.lightledger.exchange.SpotFormat;
import org.lightledger.spot.Spot;

/** Takes spots out of a ledger into a file. */
public final class SpotExport {
  private SpotExport() {}

  /**
   * The spots that are to leave.
   *
   * @param session a session of the ledger
   * @param ids their numbers; none for the whole stock
   * @param withNotes whether the owner's notes go along, which are private
   * @return by number, or in the order that was asked for
   * @throws LedgerException when one of them is not in the ledger
   */
  public static List<ExchangedSpot> spots(
      LedgerSession session, Collection<Long> ids, boolean withNotes) {
    List<Spot> spots = new ArrayList<>();
    if (ids.isEmpty()) {
      spots.addAll(session.spots().all());
    }
    for (long id : new LinkedHashSet<>(ids)) {
      spots.add(session.spots().find(id).orElseThrow(() -> LedgerException.notFound("spot", id)));
    }
    return spots.stream()
        .map(
            spot ->
                ExchangedSpot.of(
                    spot,
                    session.traits().of(spot.id()),
                    session.hazards().of(spot.id()),
                    withNotes))
        .toList();
  }

  /**
   * Writes a new file, which has its name once it is whole.
   *
   * @param target the file; there must be none of that name
   * @param format its format
   * @param spots the spots
   * @param now the present, which a GeoPackage notes
   * @throws LedgerException when there is such a file already, or it can not be written
   */
  public static void write(Path target, SpotFormat format, List<ExchangedSpot> spots, Instant now) {
    new NewFile(target, "file").make(part -> fill(part, format, spots, now));
  }

  private static void fill(Path file, SpotFormat format, List<ExchangedSpot> spots, Instant now)
      throws IOException {
    if (format == SpotFormat.GPKG) {
      SpotPackage.write(file, spots, now);
      return;
    }
    try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
      switch (format) {
        case GEOJSON -> GeoJsonSpots.write(spots, out);
        case KML -> KmlSpots.write(spots, out);
        case GPX -> GpxSpots.write(spots, out);
        default -> throw new IllegalArgumentException("expected a text format, found " + format);
      }
    }
  }
}

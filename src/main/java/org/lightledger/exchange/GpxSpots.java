package org.lightledger.exchange;

import java.io.IOException;
import java.io.OutputStream;
import java.time.ZoneId;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

/**
 * Writes spots as waypoints of GPX 1.1 (topografix.com/GPX/1/1): name, description for people, the
 * owner's notes as the comment, and in extensions of a namespace of its own what a ledger reads
 * again.
 */
public final class GpxSpots {
  static final String NAMESPACE = "http://www.topografix.com/GPX/1/1";

  /** Names the extensions and leads nowhere. */
  static final String OWN_NAMESPACE = "urn:x-lightledger:spot:1";

  private static final String CREATOR = "Lightledger";

  private GpxSpots() {}

  /**
   * Writes a file.
   *
   * @param spots the spots
   * @param out where to; flushed, not closed
   * @throws IOException when it can not be written
   */
  public static void write(List<ExchangedSpot> spots, OutputStream out) throws IOException {
    XmlOut xml = new XmlOut(out);
    xml.open(
        "gpx",
        "xmlns",
        NAMESPACE,
        "xmlns:ledger",
        OWN_NAMESPACE,
        "version",
        "1.1",
        "creator",
        CREATOR);
    for (ExchangedSpot spot : spots) {
      write(spot, xml);
    }
    xml.close().end();
  }

  private static void write(ExchangedSpot spot, XmlOut xml) throws IOException {
    ZoneId zone = spot.zone();
    xml.open(
            "wpt",
            "lat",
            Numbers.plain(spot.position().latitudeDeg()),
            "lon",
            Numbers.plain(longitudeDeg(spot)))
        .text("name", spot.name() == null ? "" : spot.name())
        .text("cmt", spot.notes())
        .text("desc", SpotWords.of(spot))
        .open("extensions")
        .open("ledger:spot")
        .text("ledger:open", String.valueOf(spot.open()))
        .text("ledger:area", spot.area() == null ? "" : spot.area())
        .text("ledger:zone", zone == null ? "" : zone.getId())
        .text("ledger:facings", Numbers.facings(spot.facings()))
        .text(
            "ledger:traits",
            spot.traits().stream().map(Trait::code).collect(Collectors.joining(" ")))
        .text(
            "ledger:hazards",
            spot.hazards().stream().map(Hazard::code).collect(Collectors.joining(" ")))
        .text("ledger:cautions", spot.cautions())
        .text("ledger:notes", spot.notes())
        .close()
        .close()
        .close();
  }

  /** The schema's longitudes end before 180, which is the meridian of -180. */
  private static double longitudeDeg(ExchangedSpot spot) {
    double longitudeDeg = spot.position().longitudeDeg();
    return longitudeDeg == 180 ? -180 : longitudeDeg;
  }
}

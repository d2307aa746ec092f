package org.lightledger.exchange;

import java.io.IOException;
import java.io.OutputStream;
import java.time.ZoneId;
import java.util.List;
import java.util.stream.Collectors;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Trait;

/**
 * Writes spots as KML 2.2 (OGC 07-147r2): a placemark each, with a description for people and, in a
 * schema of its own, what a ledger reads again.
 */
public final class KmlSpots {
  static final String NAMESPACE = "http://www.opengis.net/kml/2.2";
  static final String SCHEMA = "lightledger-spot";

  private static final List<String> TEXTS =
      List.of("area", "zone", "facings", "traits", "hazards", "cautions", "notes");

  private KmlSpots() {}

  /**
   * Writes a file.
   *
   * @param spots the spots
   * @param out where to; flushed, not closed
   * @throws IOException when it can not be written
   */
  public static void write(List<ExchangedSpot> spots, OutputStream out) throws IOException {
    XmlOut xml = new XmlOut(out);
    xml.open("kml", "xmlns", NAMESPACE).open("Document").text("name", "Spots");
    xml.open("Schema", "name", "Spot", "id", SCHEMA);
    xml.empty("SimpleField", "type", "bool", "name", "open");
    for (String field : TEXTS) {
      xml.empty("SimpleField", "type", "string", "name", field);
    }
    xml.close();
    for (ExchangedSpot spot : spots) {
      write(spot, xml);
    }
    xml.close().close().end();
  }

  private static void write(ExchangedSpot spot, XmlOut xml) throws IOException {
    ZoneId zone = spot.zone();
    xml.open("Placemark")
        .text("name", spot.name() == null ? "" : spot.name())
        .text("description", SpotWords.of(spot))
        .open("ExtendedData")
        .open("SchemaData", "schemaUrl", "#" + SCHEMA);
    data(xml, "open", String.valueOf(spot.open()));
    data(xml, "area", spot.area() == null ? "" : spot.area());
    data(xml, "zone", zone == null ? "" : zone.getId());
    data(xml, "facings", Numbers.facings(spot.facings()));
    data(xml, "traits", spot.traits().stream().map(Trait::code).collect(Collectors.joining(" ")));
    data(
        xml, "hazards", spot.hazards().stream().map(Hazard::code).collect(Collectors.joining(" ")));
    data(xml, "cautions", spot.cautions());
    data(xml, "notes", spot.notes());
    xml.close().close();
    xml.open("Point")
        .text(
            "coordinates",
            Numbers.plain(spot.position().longitudeDeg())
                + ","
                + Numbers.plain(spot.position().latitudeDeg()))
        .close()
        .close();
  }

  private static void data(XmlOut xml, String name, String value) throws IOException {
    xml.text("SimpleData", value, "name", name);
  }
}

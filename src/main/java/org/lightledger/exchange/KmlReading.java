package org.lightledger.exchange;

import org.jspecify.annotations.Nullable;

/**
 * Reads placemarks with a point from anybody's KML, of any version. Links into the network are
 * never followed. Where a placemark carries the schema of {@link KmlSpots} that is taken over, else
 * its description becomes the notes. Not thread-safe.
 */
final class KmlReading {
  private final XmlIn xml;
  private final SpotFile.Gathering gathering = new SpotFile.Gathering();
  private int placemarks;
  private int links;

  KmlReading(XmlIn xml) {
    this.xml = xml;
  }

  SpotFile read() throws UnreadableSpotsException {
    while (xml.next()) {
      if (!xml.isStart()) {
        continue;
      }
      if (xml.name().equals("Placemark")) {
        placemark();
      } else if (xml.name().equals("NetworkLink")) {
        links++;
        xml.skip();
      }
    }
    if (links > 0) {
      gathering.remark(
          "Links into the network were not followed ("
              + links
              + "): save what they lead to, and import that.");
    }
    if (gathering.isEmpty()) {
      gathering.remark("The file has no placemark.");
    }
    return gathering.file();
  }

  private void placemark() throws UnreadableSpotsException {
    String where = "placemark " + ++placemarks;
    SpotDraft draft = new SpotDraft();
    String description = null;
    boolean own = false;
    int outside = xml.depth() - 1;
    while (xml.next() && xml.depth() > outside) {
      if (!xml.isStart()) {
        continue;
      }
      switch (xml.name()) {
        case "name" -> draft.name(xml.elementText());
        case "description" -> description = xml.elementText();
        case "Point" -> point(draft);
        case "SchemaData" -> own |= schemaData(draft);
        case "ExtendedData" -> {}
        case "LineString",
            "LinearRing",
            "Polygon",
            "MultiGeometry",
            "Model",
            "Track",
            "MultiTrack" -> {
          draft.noPlace("expected a Point, found a " + xml.name());
          xml.skip();
        }
        default -> xml.skip();
      }
    }
    if (!own) {
      draft.notes(description == null ? null : description.strip());
    }
    gathering.take(where, draft);
  }

  private void point(SpotDraft draft) throws UnreadableSpotsException {
    String coordinates = null;
    int outside = xml.depth() - 1;
    while (xml.next() && xml.depth() > outside) {
      if (xml.isStart()) {
        if (xml.name().equals("coordinates")) {
          coordinates = xml.elementText();
        } else {
          xml.skip();
        }
      }
    }
    place(draft, coordinates);
  }

  private static void place(SpotDraft draft, @Nullable String coordinates) {
    String[] numbers = coordinates == null ? new String[0] : coordinates.strip().split(",", 4);
    if (numbers.length < 2 || numbers.length > 3) {
      draft.noPlace("expected the coordinates longitude,latitude of one point, found others");
      return;
    }
    try {
      draft.at(Numbers.real(numbers[1]), Numbers.real(numbers[0]));
    } catch (IllegalArgumentException e) {
      draft.noPlace(String.valueOf(e.getMessage()));
    }
  }

  /** What a ledger wrote; false when the data follows another schema. */
  private boolean schemaData(SpotDraft draft) throws UnreadableSpotsException {
    if (!("#" + KmlSpots.SCHEMA).equals(xml.attribute("schemaUrl"))) {
      xml.skip();
      return false;
    }
    OwnFields.read(xml, element -> element.attribute("name"), draft);
    return true;
  }
}

package org.lightledger.exchange;

import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** The fields that a ledger writes into XML beside what the format has; the same in KML and GPX. */
final class OwnFields {
  private OwnFields() {}

  /**
   * Takes over the fields within the element on which the file stands.
   *
   * @param xml the file
   * @param field tells the name of the field of an element, or null
   * @param draft the spot
   * @throws UnreadableSpotsException when the file breaks off
   */
  static void read(XmlIn xml, Function<XmlIn, @Nullable String> field, SpotDraft draft)
      throws UnreadableSpotsException {
    int outside = xml.depth() - 1;
    while (xml.next() && xml.depth() > outside) {
      if (!xml.isStart()) {
        continue;
      }
      String name = field.apply(xml);
      switch (name == null ? "" : name) {
        case "open" -> draft.open(xml.elementText());
        case "area" -> draft.area(xml.elementText());
        case "zone" -> draft.zone(xml.elementText());
        case "facings" -> draft.facings(xml.elementText());
        case "traits" -> draft.traits(xml.elementText());
        case "hazards" -> draft.hazards(xml.elementText());
        case "cautions" -> draft.cautions(xml.elementText());
        case "notes" -> draft.notes(xml.elementText());
        default -> xml.skip();
      }
    }
  }
}

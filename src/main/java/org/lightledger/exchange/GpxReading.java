package org.lightledger.exchange;

import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Reads the waypoints of anybody's GPX, 1.0 or 1.1. Where a waypoint carries the extensions of
 * {@link GpxSpots} those are taken over, else its comment and description become the notes. Not
 * thread-safe.
 */
final class GpxReading {
  private final XmlIn xml;
  private final SpotFile.Gathering gathering = new SpotFile.Gathering();
  private int waypoints;
  private boolean tracks;

  GpxReading(XmlIn xml) {
    this.xml = xml;
  }

  SpotFile read() throws UnreadableSpotsException {
    while (xml.next()) {
      if (!xml.isStart()) {
        continue;
      }
      if (xml.name().equals("wpt")) {
        waypoint();
      } else {
        tracks |= xml.name().equals("trk") || xml.name().equals("rte");
        xml.skip();
      }
    }
    if (tracks) {
      gathering.remark(
          "Tracks and routes are no spots; \"import --track\" places shots by a track.");
    }
    if (gathering.isEmpty()) {
      gathering.remark("The file has no waypoint.");
    }
    return gathering.file();
  }

  private void waypoint() throws UnreadableSpotsException {
    String where = "waypoint " + ++waypoints;
    SpotDraft draft = new SpotDraft();
    place(draft);
    String comment = null;
    String description = null;
    boolean own = false;
    int outside = xml.depth() - 1;
    while (xml.next() && xml.depth() > outside) {
      if (!xml.isStart()) {
        continue;
      }
      switch (xml.name()) {
        case "name" -> draft.name(xml.elementText());
        case "cmt" -> comment = xml.elementText();
        case "desc" -> description = xml.elementText();
        case "extensions" -> {}
        case "spot" -> own |= spot(draft);
        default -> xml.skip();
      }
    }
    if (!own) {
      draft.notes(together(comment, description));
    }
    gathering.take(where, draft);
  }

  private void place(SpotDraft draft) {
    try {
      draft.at(Numbers.real(xml.attribute("lat")), Numbers.real(xml.attribute("lon")));
    } catch (IllegalArgumentException e) {
      draft.noPlace(String.valueOf(e.getMessage()));
    }
  }

  private static String together(@Nullable String comment, @Nullable String description) {
    return Stream.of(comment == null ? "" : comment, description == null ? "" : description)
        .map(String::strip)
        .filter(text -> !text.isEmpty())
        .distinct()
        .collect(Collectors.joining("\n"));
  }

  /** What a ledger wrote; false when the element is somebody else's. */
  private boolean spot(SpotDraft draft) throws UnreadableSpotsException {
    if (!xml.namespace().equals(GpxSpots.OWN_NAMESPACE)) {
      xml.skip();
      return false;
    }
    OwnFields.read(xml, XmlIn::name, draft);
    return true;
  }
}

package org.lightledger.web;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.lightledger.ask.Question;
import org.lightledger.ask.ScoutingRun;
import org.lightledger.spot.Spot;
import org.lightledger.store.LedgerSession;
import org.lightledger.studio.Scouting;

/**
 * The planned moments that an address names, each as SPOT@LOCALTIME on the clock of the spot.
 *
 * @param good those that were understood
 * @param typed the words of each of them, in the same order
 * @param bad the words of those that were not
 */
record ScoutingStops(List<Scouting.Stop> good, List<String> typed, List<String> bad) {
  private static final String FIELD = "stop";
  private static final String LABEL = "Planned moment";

  /** Reads them; each bad one is named. */
  static ScoutingStops read(Fields fields, LedgerSession session, Instant now) {
    List<Scouting.Stop> good = new ArrayList<>();
    List<String> typed = new ArrayList<>();
    List<String> bad = new ArrayList<>();
    for (String text : new LinkedHashSet<>(fields.all(FIELD))) {
      Scouting.Stop stop = stop(fields, session, now, text);
      if (stop == null) {
        bad.add(text);
      } else {
        good.add(stop);
        typed.add(text);
      }
    }
    int count = good.size() + bad.size();
    if (count > ScoutingRun.MOST_SPOTS) {
      fields.problem(
          FIELD,
          "Planned moments",
          "expected at most " + ScoutingRun.MOST_SPOTS + " for one outing, found " + count);
    }
    return new ScoutingStops(good, typed, bad);
  }

  private static Scouting.@Nullable Stop stop(
      Fields fields, LedgerSession session, Instant now, String text) {
    int at = text.indexOf('@');
    long spotId;
    LocalDateTime local;
    try {
      spotId = Long.parseLong(text.substring(0, Math.max(at, 0)).strip());
      local = LocalDateTime.parse(text.substring(at + 1).strip());
    } catch (NumberFormatException | DateTimeException e) {
      return refused(
          fields,
          "expected a spot's number, @ and its local time, such as 7@2026-12-12T17:00, found "
              + Fields.quoted(text));
    }
    Spot spot = session.spots().find(spotId).orElse(null);
    if (spot == null) {
      return refused(
          fields,
          "expected the number of a spot, found " + spotId + ", which the ledger does not have");
    }
    ZoneId zone = SpotSky.zone(spot);
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(local);
    if (offsets.isEmpty()) {
      return refused(
          fields,
          "expected a time that the clocks of "
              + zone.getId()
              + " show on that day, found "
              + Fields.quoted(text)
              + ", which a clock change leaves out");
    }
    Instant moment = local.toInstant(offsets.get(0));
    Instant last = now.atZone(zone).plusDays(Question.MOST_DAYS).toInstant();
    if (!moment.isAfter(now) || moment.isAfter(last)) {
      return refused(
          fields,
          "expected a moment to come, until "
              + Words.shortDay(last.atZone(zone).toLocalDate())
              + ", found "
              + Fields.quoted(text));
    }
    return new Scouting.Stop(
        spot, zone, SpotSky.known(session.skylines().find(spotId).orElse(null)), moment);
  }

  private static Scouting.@Nullable Stop refused(Fields fields, String message) {
    fields.problem(FIELD, LABEL, message);
    return null;
  }

  /** What the form lets one tick off. */
  List<AskPage.Choice> choices() {
    List<AskPage.Choice> choices = new ArrayList<>();
    for (int i = 0; i < good.size(); i++) {
      Scouting.Stop stop = good.get(i);
      choices.add(
          new AskPage.Choice(
              typed.get(i),
              stop.spot().name()
                  + ", "
                  + Words.moment(stop.at().atZone(stop.zone()).toOffsetDateTime()),
              true));
    }
    return choices;
  }
}

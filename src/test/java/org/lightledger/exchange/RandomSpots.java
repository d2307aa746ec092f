package org.lightledger.exchange;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.lightledger.geo.Bearing;
import org.lightledger.geo.GeoPoint;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.LedgerSession;

/** A stock of spots with odd names, all over the earth. */
final class RandomSpots {
  private static final String[] PIECES = {
    "Mill ",
    "\"",
    "'",
    "<b>",
    "</name>",
    "&amp;",
    "]]>",
    "\\",
    "\u0001",
    "\u001b[31m",
    "\t",
    "\r",
    "\n",
    "\r\n",
    "\u0085",
    "\u2028",
    "\u200f",
    "\u00e9",
    "e\u0301",
    "\ud83c\udf05",
    "\u65e5\u672c",
    "\u05d0",
    "<!--",
    "<script>alert(1)</script>",
    "{{",
    "%s",
    "\uFFFE",
    "\u007f",
    ";",
    ",",
    "/"
  };
  private static final String[] ZONES = {"Europe/Madrid", "Asia/Kolkata", "America/Los_Angeles"};

  /** Stands in every note. */
  static final String PRIVATE = "for my eyes";

  private RandomSpots() {}

  /** Fills a ledger; the names differ, so that none is taken for another. */
  static void fill(LedgerSession session, int count, Random random) {
    for (int number = 0; number < count; number++) {
      String name = (text(random, 6) + number + text(random, 6)).strip();
      String longName = number % 50 == 7 ? name + "x".repeat(5000) : name;
      List<Facing> facings = new ArrayList<>();
      for (int facing = random.nextInt(4); facing > 0; facing--) {
        facings.add(
            new Facing(
                Bearing.of(random.nextDouble() * 360),
                random.nextDouble() * 180,
                facing == 2 ? Facing.Origin.SHOTS : Facing.Origin.OWNER,
                facing == 2 ? 3 : 0));
      }
      String area = text(random, 3).strip();
      long id =
          session
              .spots()
              .insert(
                  new Spot(
                      0,
                      longName,
                      area.isEmpty() || random.nextBoolean() ? null : area,
                      place(number, random),
                      random.nextBoolean() ? ZoneId.of(ZONES[random.nextInt(3)]) : null,
                      random.nextInt(4) == 0,
                      facings,
                      random.nextBoolean() ? "" : text(random, 20) + PRIVATE,
                      random.nextBoolean() ? "" : text(random, 20)));
      Set<Trait> traits = EnumSet.noneOf(Trait.class);
      for (Trait trait : Trait.values()) {
        if (random.nextInt(4) == 0) {
          traits.add(trait);
        }
      }
      session.traits().set(id, traits);
      Set<Hazard> hazards = EnumSet.noneOf(Hazard.class);
      for (Hazard hazard : Hazard.values()) {
        if (random.nextInt(5) == 0) {
          hazards.add(hazard);
        }
      }
      session.hazards().set(id, hazards);
    }
  }

  private static GeoPoint place(int number, Random random) {
    return switch (number) {
      case 0 -> new GeoPoint(90, 0);
      case 1 -> new GeoPoint(-90, 12.5);
      case 2 -> new GeoPoint(0, -180);
      case 3 -> new GeoPoint(1e-9, 1e-9);
      case 4 -> new GeoPoint(41.123456789012345, 179.99999999999997);
      default -> new GeoPoint(random.nextDouble() * 180 - 90, random.nextDouble() * 360 - 180);
    };
  }

  private static String text(Random random, int most) {
    StringBuilder text = new StringBuilder();
    for (int piece = random.nextInt(most + 1); piece > 0; piece--) {
      text.append(PIECES[random.nextInt(PIECES.length)]);
    }
    return text.toString();
  }
}

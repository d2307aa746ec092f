package org.lightledger.indexing;

import java.io.IOException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.lightledger.exchange.ExchangedSpot;
import org.lightledger.exchange.SpotFile;
import org.lightledger.exchange.SpotReader;
import org.lightledger.exchange.UnreadableSpotsException;
import org.lightledger.geo.GeoPoint;
import org.lightledger.shot.zone.ZoneLookup;
import org.lightledger.spot.Facing;
import org.lightledger.spot.Hazard;
import org.lightledger.spot.Spot;
import org.lightledger.spot.Trait;
import org.lightledger.store.ForeignPackage;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.NearSpot;

/**
 * Adds the spots of a file. One that lies within the join distance of a spot of the same name is
 * that spot, and one without a name is the nearest spot within it; of a known spot only what is
 * empty is filled. So the same file adds nothing a second time.
 */
public final class SpotAdding {
  private final Ledger ledger;
  private final ZoneLookup zones;

  /**
   * Adds to a ledger.
   *
   * @param ledger the ledger
   * @param zones knows the zones of places
   */
  public SpotAdding(Ledger ledger, ZoneLookup zones) {
    this.ledger = ledger;
    this.zones = zones;
  }

  /** What became of a feature. */
  public enum Status {
    /** It is a new spot. */
    ADDED,
    /** The ledger has it. */
    KNOWN,
    /** It is no spot. */
    UNREADABLE
  }

  /**
   * One feature of the file.
   *
   * @param status what became of it
   * @param where which feature it is, in words
   * @param spotId its spot, or null when it is none
   * @param name the spot's name, "" when it is none
   * @param remarks what was filled, left out, or is otherwise in the ledger
   */
  public record Line(
      Status status, String where, @Nullable Long spotId, String name, List<String> remarks) {
    /** Keeps an own copy of the remarks. */
    public Line {
      remarks = List.copyOf(remarks);
    }
  }

  /**
   * What became of a file.
   *
   * @param lines a line for each feature
   * @param remarks what else is to be known of the file
   */
  public record Report(List<Line> lines, List<String> remarks) {
    /** Keeps own copies of the lists. */
    public Report {
      lines = List.copyOf(lines);
      remarks = List.copyOf(remarks);
    }

    /**
     * Counts features.
     *
     * @param status what became of them
     * @return how many
     */
    public int count(Status status) {
      return (int) lines.stream().filter(line -> line.status() == status).count();
    }
  }

  /**
   * Adds a file's spots, all in one step.
   *
   * @param file GeoJSON, KML, KMZ, GPX or a GeoPackage
   * @param tryOnly whether to find out what would be done and take it back
   * @return what became of its features
   * @throws UnreadableSpotsException when nothing of the file can be taken over
   * @throws IOException when it can not be read
   */
  public Report add(Path file, boolean tryOnly) throws IOException, UnreadableSpotsException {
    SpotFile read = SpotReader.isSqlite(file) ? ForeignPackage.read(file) : SpotReader.read(file);
    return tryOnly
        ? ledger.attempt(session -> add(read, session))
        : ledger.write(session -> add(read, session));
  }

  private Report add(SpotFile file, LedgerSession session) {
    double joinDistanceM = JoinDistance.of(session);
    List<Line> lines = new ArrayList<>();
    for (SpotFile.Found found : file.found()) {
      List<String> remarks = new ArrayList<>(found.leftOut());
      NearSpot known = known(found.spot(), joinDistanceM, session);
      if (known == null) {
        Spot made = make(found.spot(), session);
        lines.add(new Line(Status.ADDED, found.where(), made.id(), made.name(), remarks));
      } else {
        fill(known.spot(), found.spot(), session, remarks);
        lines.add(
            new Line(Status.KNOWN, found.where(), known.spot().id(), known.spot().name(), remarks));
      }
    }
    for (String problem : file.problems()) {
      lines.add(new Line(Status.UNREADABLE, problem, null, "", List.of()));
    }
    return new Report(lines, file.remarks());
  }

  private static @Nullable NearSpot known(
      ExchangedSpot spot, double joinDistanceM, LedgerSession session) {
    String name = spot.name();
    return session.spotSearch().within(spot.position(), joinDistanceM).stream()
        .filter(near -> name == null || near.spot().name().strip().equals(name))
        .findFirst()
        .orElse(null);
  }

  private Spot make(ExchangedSpot found, LedgerSession session) {
    GeoPoint place = found.position();
    ZoneId said = found.zone();
    ZoneId zone = said == null ? SpotPlacing.zoneAt(zones, place) : said;
    long id = SpotPlacing.makeSpot(session, found.area(), place, zone);
    Spot unnamed = session.spots().find(id).orElseThrow();
    String name = found.name();
    Spot spot =
        new Spot(
            id,
            name == null ? unnamed.name() : name,
            found.area(),
            place,
            zone,
            found.open(),
            List.of(),
            found.notes(),
            found.cautions());
    session.spots().update(spot);
    session.spots().setFacings(id, byOwner(found), Facing.Origin.OWNER);
    session.traits().set(id, found.traits());
    session.hazards().set(id, found.hazards());
    // The owner's file says where it is, so no shot is to move it.
    session.spots().move(id, place, zone);
    return spot;
  }

  private static List<Facing> byOwner(ExchangedSpot found) {
    return found.facings().stream().map(ExchangedSpot.Looking::byOwner).toList();
  }

  /** Fills what is empty, and tells what is and what is otherwise. */
  private static void fill(
      Spot spot, ExchangedSpot found, LedgerSession session, List<String> remarks) {
    Set<Trait> traits = EnumSet.noneOf(Trait.class);
    traits.addAll(session.traits().of(spot.id()));
    boolean faced = !spot.facings().isEmpty() || spot.open();
    Filling filling = new Filling(remarks);
    String area = spot.area() == null ? "" : spot.area();
    String newArea = filling.of("area", area, found.area() == null ? "" : found.area());
    Spot filled =
        new Spot(
            spot.id(),
            spot.name(),
            newArea.isEmpty() ? null : newArea,
            spot.position(),
            spot.zone(),
            spot.open() || (!faced && found.open()),
            spot.facings(),
            filling.of("notes", spot.notes(), found.notes()),
            filling.of("cautions", spot.cautions(), found.cautions()));
    if (!faced && found.open()) {
      filling.filled("open");
    }
    if (!faced && !found.facings().isEmpty()) {
      session.spots().setFacings(spot.id(), byOwner(found), Facing.Origin.OWNER);
      filling.filled("facings");
    } else if (faced && !sameFacings(spot, found)) {
      filling.differs("facings");
    }
    if (traits.isEmpty() && !found.traits().isEmpty()) {
      session.traits().set(spot.id(), found.traits());
      filling.filled("traits");
    } else if (!found.traits().isEmpty() && !traits.equals(found.traits())) {
      filling.differs("traits");
    }
    hazards(spot, found, session, filling);
    if (!filled.equals(spot)) {
      session.spots().update(filled);
    }
    if (!spot.position().equals(found.position())) {
      filling.differs("position");
    }
  }

  private static void hazards(
      Spot spot, ExchangedSpot found, LedgerSession session, Filling filling) {
    Set<Hazard> known = session.hazards().of(spot.id());
    if (known.isEmpty() && !found.hazards().isEmpty()) {
      session.hazards().set(spot.id(), found.hazards());
      filling.filled("hazards");
    } else if (!found.hazards().isEmpty() && !Set.copyOf(known).equals(found.hazards())) {
      filling.differs("hazards");
    }
  }

  private static boolean sameFacings(Spot spot, ExchangedSpot found) {
    List<ExchangedSpot.Looking> own =
        spot.facings().stream()
            .map(facing -> new ExchangedSpot.Looking(facing.bearing(), facing.spreadDeg()))
            .toList();
    return (found.facings().isEmpty() && !found.open())
        || (own.equals(found.facings()) && spot.open() == found.open());
  }

  /** Tells what was filled and what stays as it is. */
  private record Filling(List<String> remarks) {
    String of(String what, String own, String found) {
      if (own.isBlank() && !found.isBlank()) {
        filled(what);
        return found;
      }
      if (!found.isBlank() && !own.equals(found)) {
        differs(what);
      }
      return own;
    }

    void filled(String what) {
      remarks.add(what + " filled");
    }

    void differs(String what) {
      remarks.add(what + " stays as it is; the file says otherwise");
    }
  }
}

package org.lightledger.studio;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.lightledger.session.drive.DriveTable;
import org.lightledger.session.drive.Drives;
import org.lightledger.session.drive.Roads;
import org.lightledger.session.drive.roads.GraphRoads;
import org.lightledger.store.Ledger;
import org.lightledger.store.LedgerSession;
import org.lightledger.store.StoredMap;

/**
 * The roads of a ledger's maps. They are prepared when a map is added, into the ledger's folder,
 * and opened when a drive is first asked for. Safe for use by several threads.
 */
public final class RegionRoads implements AutoCloseable {
  private final Ledger ledger;
  private final Map<String, GraphRoads> open = new HashMap<>();

  /**
   * The roads of a ledger.
   *
   * @param ledger the ledger
   */
  public RegionRoads(Ledger ledger) {
    this.ledger = ledger;
  }

  /**
   * Prepares the roads of every map whose file is still where it was, unless that was done before.
   *
   * @param ledger the ledger
   * @return what could not be prepared, in words; drives there are estimated
   */
  public static List<String> prepare(Ledger ledger) {
    List<String> problems = new ArrayList<>();
    for (StoredMap map : maps(ledger)) {
      if (Files.isReadable(map.path())) {
        try {
          GraphRoads.prepare(map.path(), map.sha256(), folder(ledger));
        } catch (IOException e) {
          problems.add(e.getMessage() + "; drives there will be estimated from the distance");
        }
      }
    }
    return problems;
  }

  /**
   * What is known of drives: the owner's minutes, then the roads of the maps, then estimates.
   *
   * @param session the ledger
   * @return the drives
   */
  public Drives drives(LedgerSession session) {
    Map<DriveTable.Leg, Integer> own = new HashMap<>();
    session
        .drives()
        .all()
        .forEach(
            drive ->
                own.put(new DriveTable.Leg(drive.fromSpotId(), drive.toSpotId()), drive.minutes()));
    return new Drives(own, roads(session.maps().all()));
  }

  private synchronized List<Roads> roads(List<StoredMap> maps) {
    Set<String> wanted = maps.stream().map(StoredMap::sha256).collect(Collectors.toSet());
    open.entrySet()
        .removeIf(
            entry -> {
              boolean gone = !wanted.contains(entry.getKey());
              if (gone) {
                entry.getValue().close();
              }
              return gone;
            });
    List<Roads> roads = new ArrayList<>();
    for (StoredMap map : maps) {
      if (!open.containsKey(map.sha256())) {
        GraphRoads.open(folder(ledger), map.sha256())
            .ifPresent(found -> open.put(map.sha256(), found));
      }
      GraphRoads found = open.get(map.sha256());
      if (found != null) {
        roads.add(found);
      }
    }
    return roads;
  }

  private static List<StoredMap> maps(Ledger ledger) {
    return ledger.read(session -> session.maps().all());
  }

  private static Path folder(Ledger ledger) {
    return Objects.requireNonNull(ledger.file().getParent(), "a ledger lies in a folder");
  }

  @Override
  public synchronized void close() {
    open.values().forEach(GraphRoads::close);
    open.clear();
  }
}

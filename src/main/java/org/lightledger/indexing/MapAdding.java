package org.lightledger.indexing;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.lightledger.map.MapBox;
import org.lightledger.map.osm.OsmExtract;
import org.lightledger.store.Ledger;
import org.lightledger.store.StoredMap;

/** Adds an OpenStreetMap extract to a ledger, whole or not at all, and removes it. */
public final class MapAdding {
  private static final int BUFFER_BYTES = 1 << 16;

  private final Ledger ledger;
  private final Clock clock;

  /**
   * Adds to a ledger.
   *
   * @param ledger the ledger
   * @param clock tells when a map is added
   */
  public MapAdding(Ledger ledger, Clock clock) {
    this.ledger = ledger;
    this.clock = clock;
  }

  /**
   * What came of it.
   *
   * @param map the map in the ledger
   * @param added false when a file with this content was there already and nothing was done
   * @param changed where obstructions were added, so that skylines near it are no longer right;
   *     nothing when none were
   * @param problems what was left out or replaced by a default, the first thousand
   */
  public record Result(
      StoredMap map, boolean added, Optional<MapBox> changed, List<String> problems) {}

  /**
   * Adds a file.
   *
   * @param file OSM XML, plain or packed by gzip, or OSM PBF
   * @return what came of it
   * @throws IOException when the file can not be read, breaks off, is damaged or is no extract;
   *     nothing was changed then
   */
  public Result add(Path file) throws IOException {
    String sha256 = sha256(file);
    Optional<StoredMap> known = ledger.read(session -> session.maps().withContent(sha256));
    if (known.isPresent()) {
      return new Result(known.get(), false, Optional.empty(), List.of());
    }
    OsmExtract extract = OsmExtract.read(file);
    return ledger.write(
        session -> {
          StoredMap map =
              session
                  .maps()
                  .add(
                      file,
                      sha256,
                      extract.licence().orElse(null),
                      extract.bounds(),
                      clock.instant(),
                      sink -> {
                        extract.show(sink);
                        return extract.problemCount();
                      });
          return new Result(
              map, true, session.maps().obstructionBounds(map.id()), extract.problems());
        });
  }

  /**
   * Removes a map with all that came of it; what the owner drew stays.
   *
   * @param mapId the ledger's number of the map
   * @return where obstructions were removed; nothing when there were none
   * @throws org.lightledger.store.LedgerException when there is no such map
   */
  public Optional<MapBox> remove(long mapId) {
    return ledger.write(
        session -> {
          Optional<MapBox> changed = session.maps().obstructionBounds(mapId);
          session.maps().remove(mapId);
          return changed;
        });
  }

  private static String sha256(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      byte[] buffer = new byte[BUFFER_BYTES];
      for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
        digest.update(buffer, 0, read);
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
